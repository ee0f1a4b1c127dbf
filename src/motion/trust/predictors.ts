/**
 * What foretells the error of a joint in a frame, without knowing the truth: numbers that are 0 where all is well and about
 * 1 where things are bad.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { ModelSize } from '../../pose/track.ts';
import type { FittedBody } from '../fit/fittedBody.ts';
import { JOINT, JOINT_COUNT } from '../joints.ts';
import { ERROR_CLASSES, JOINT_CLASS } from './errorClasses.ts';

/**
 * - `lens` 1 - in-plane fraction (projected over true length; the worse of the bones that matter; 0: square to the view).
 * - `unseen` 1 - least visibility of the joint's landmarks.
 * - `far` fitted joint from its landmark in the picture, over 5 cm at the performer's distance.
 * - `depth` measured depth of the bones from what the fit makes of it, over 10 cm.
 * - `jump` how far the landmarks leave their neighbours in time, over 5 cm.
 * - `gap` time to the nearest frame with a person, over 0.25 s.
 * - `behind` (1 - cos) / 2 of the angle between the body's front and the camera: 0 facing it, 1 from behind.
 * - `side` |sin| of it: 1 in side view, where hips and shoulders hide each other.
 * - `bent` flexion of a hinge, swing of an upper arm or thigh from hanging, over 90°.
 * - `quick` angular speed of the joint, over 200° a second of the performer's time.
 * - `told` how far off the reader says that the bones may point, or a hinge may be bent, over half a radian.
 * - `apart` how far the fit lies from what the reader says of the same, over a third of a radian.
 * - `notHeavy`, `lite` 1 where the model is not the heavy one; where it is the lite one.
 *
 * For the head `far` is the distance of the rigid head from the picture's face.
 */
export const PREDICTORS = ['lens', 'unseen', 'far', 'depth', 'jump', 'gap', 'behind', 'side', 'bent', 'quick', 'told', 'apart', 'notHeavy', 'lite'] as const;
export type Predictor = (typeof PREDICTORS)[number];
/** Marks of a kind and no signs of trouble: a larger model is not the better one in everything. */
export const FREE_PREDICTORS: readonly Predictor[] = ['notHeavy', 'lite'];
export const PREDICTOR_COUNT = PREDICTORS.length;

/**
 * What foretells the turn of a limb about its own bone: all of these, and how far the elbow or knee is bent, which is what shows the turn.
 *
 * - `straight` 1 up to a bend of 20°, where nothing shows it and it is taken from where people's joints bend by default; 0 from 60°.
 * - `half` 1 at a bend of 35°, where a plane is seen and half believed, 0 up to 15° and from 60°.
 */
export const TURN_PREDICTORS = [...PREDICTORS, 'straight', 'half'] as const;
export const TURN_PREDICTOR_COUNT = TURN_PREDICTORS.length;

/** What the moving ones are made of. */
export type MovingSource = Pick<PredictorSource, 'rotations' | 'performerS'>;

/** T frames; shapes as in Motion. */
export interface PredictorSource {
  readonly model: ModelSize;
  readonly performerS: Float64Array;
  /** Container seconds in a second of the performer's. */
  readonly captureFactor: number;
  readonly rotations: Float64Array;
  /** `[T·J]` least visibility of the joint's landmarks, 0..1. */
  readonly visibility: Float32Array;
  /** `[T·33·3]` stage axes; for in-plane fractions where there is no fit. */
  readonly positionM: Float64Array;
  readonly body: FittedBody | null;
  /** The motion shows the body as in a mirror: its left is the fitted body's right. */
  readonly mirror: boolean;
  /** What of the errors does not change with the smoothing, where it was worked out beforehand. */
  readonly ground?: TrustGround | null;
}

/**
 * `[T·J]` each: logarithm of the error without its moving part, and that of the turn about the bone; bits that stand whatever the
 * error; bits that stand when the error is above its limit.
 */
export interface TrustGround {
  readonly log: Float64Array;
  readonly turnLog: Float64Array;
  readonly always: Uint8Array;
  readonly above: Uint8Array;
}

export const BENT = PREDICTORS.indexOf('bent');
export const QUICK = PREDICTORS.indexOf('quick');
export const STRAIGHT = TURN_PREDICTORS.indexOf('straight');
export const HALF = TURN_PREDICTORS.indexOf('half');
const FAR_M = 0.05;
const DEPTH_M = 0.1;
const GAP_S = 0.25;
const TOLD_RAD = 0.5;
const APART_RAD = 1 / 3;
const SQUARE_RAD = Math.PI / 2;
const RAD = Math.PI / 180;
/** Bends of elbow and knee at which the turn's error changes its course, as seen on the tuning clips. */
const HALF_FROM_RAD = 15 * RAD;
const STRAIGHT_RAD = 20 * RAD;
const HALF_RAD = 35 * RAD;
const BENT_RAD = 60 * RAD;
const QUICK_RAD_PER_S = (200 * Math.PI) / 180;
const OTHER_SIDE = [1, 0, 3, 2];
/** Landmarks of each limb, from the trunk outward, in the order of FittedBody. */
const LIMB_LANDMARKS = [
  [LANDMARK.leftShoulder, LANDMARK.leftElbow, LANDMARK.leftWrist], [LANDMARK.rightShoulder, LANDMARK.rightElbow, LANDMARK.rightWrist],
  [LANDMARK.leftHip, LANDMARK.leftKnee, LANDMARK.leftAnkle], [LANDMARK.rightHip, LANDMARK.rightKnee, LANDMARK.rightAnkle],
] as const;
const IS_HINGE = ERROR_CLASSES.map((name) => name === 'elbow' || name === 'knee');
const HEAD = ERROR_CLASSES.indexOf('head');
const IS_BALL = ERROR_CLASSES.map((name) => name === 'shoulder' || name === 'hip');

/**
 * Writes the predictors of one joint in one frame with a pose; what isn't known counts as 0.
 *
 * @param out `[PREDICTOR_COUNT]`
 */
export function writePredictors(source: PredictorSource, t: number, joint: number, out: Float64Array): void {
  writeSteady(source, t, joint, out);
  writeMoving(source, t, joint, out);
}

/** Those that change with the smoothing where there is a fitted body: `bent` and `quick`. Others are left as they are. */
export function writeMoving(source: MovingSource, t: number, joint: number, out: Float64Array): void {
  const { rotations } = source;
  const { errorClass } = JOINT_CLASS[joint]!;
  const i = t * JOINT_COUNT + joint;
  if (IS_HINGE[errorClass] === true) out[BENT] = (2 * Math.atan2(Math.abs(rotations[i * 4 + 3]!), Math.abs(rotations[i * 4]!))) / SQUARE_RAD;
  else out[BENT] = IS_BALL[errorClass] === true ? swing(rotations, i * 4) / SQUARE_RAD : 0;
  out[QUICK] = speed(source, t, joint) / QUICK_RAD_PER_S;
}

/**
 * Those that the turn has besides; they change with the smoothing. For joints of limbs.
 *
 * @param rotations as in Motion
 * @param out `[TURN_PREDICTOR_COUNT]`
 */
export function writeBend(rotations: Float64Array, t: number, joint: number, out: Float64Array): void {
  const at = (t * JOINT_COUNT + JOINT_CLASS[joint]!.hinge) * 4;
  const bendRad = 2 * Math.atan2(Math.abs(rotations[at + 3]!), Math.abs(rotations[at]!));
  out[STRAIGHT] = within((BENT_RAD - bendRad) / (BENT_RAD - STRAIGHT_RAD));
  out[HALF] = within(Math.min((bendRad - HALF_FROM_RAD) / (HALF_RAD - HALF_FROM_RAD), (BENT_RAD - bendRad) / (BENT_RAD - HALF_RAD)));
}

function within(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/** All others; with a fitted body they need no rotations. `bent` and `quick` become 0. */
export function writeSteady(source: PredictorSource, t: number, joint: number, out: Float64Array): void {
  const { body, visibility, rotations, model } = source;
  const { errorClass, limb, bones } = JOINT_CLASS[joint]!;
  const i = t * JOINT_COUNT + joint;
  out.fill(0);
  out[1] = 1 - Math.min(1, Math.max(0, visibility[i]!));
  const cosFacing = body === null ? forwardAtLens(rotations, t) : Math.cos(body.facingRad[t]!);
  out[6] = (1 - cosFacing) / 2;
  out[7] = Math.sqrt(Math.max(0, 1 - cosFacing * cosFacing));
  if (limb >= 0) {
    const seen = source.mirror ? OTHER_SIDE[limb]! : limb;
    let least = 1;
    for (const bone of bones) {
      least = Math.min(least, body === null ? rawFraction(source.positionM, t, limb, bone) : body.boneInPlane[t * 8 + seen * 2 + bone]!);
    }
    out[0] = 1 - least;
    if (body !== null) {
      const at = t * 4 + seen;
      const upper = at * 2 + (bones[0] ?? 0);
      const isHinge = bones.length === 2;
      out[10] = (isHinge ? body.bendToldRad[at]! : body.toldRad[upper]!) / TOLD_RAD;
      out[11] = (isHinge ? body.bendApartRad[at]! : body.apartRad[upper]!) / APART_RAD;
      out[2] = known(body.imageResidualPx[at]! / body.pxPerM[t]! / FAR_M);
      out[3] = known(body.depthResidualM[at]! / DEPTH_M);
      out[4] = known(body.jumpPx[at]! / body.pxPerM[t]! / FAR_M);
    }
  }
  if (body !== null && errorClass === HEAD) out[2] = known(body.headResidualPx[t]! / body.pxPerM[t]! / FAR_M);
  if (body !== null) out[5] = Math.min(1, known(body.gapS[t]! / GAP_S));
  out[12] = model === 'heavy' ? 0 : 1;
  out[13] = model === 'lite' ? 1 : 0;
}

function known(value: number): number {
  return Number.isFinite(value) ? value : 0;
}

/** How far the bone swings from hanging, radians. */
function swing(rotations: Float64Array, at: number): number {
  return 2 * Math.atan2(Math.sqrt(rotations[at + 1]! ** 2 + rotations[at + 3]! ** 2), Math.sqrt(rotations[at]! ** 2 + rotations[at + 2]! ** 2));
}

/** Part of the pelvis' forward axis toward the lens. */
function forwardAtLens(rotations: Float64Array, t: number): number {
  const at = (t * JOINT_COUNT + JOINT.pelvis) * 4;
  return 1 - 2 * (rotations[at + 2]! ** 2 + rotations[at + 3]! ** 2);
}

function rawFraction(positionM: Float64Array, t: number, limb: number, bone: 0 | 1): number {
  const from = (t * LANDMARK_COUNT + LIMB_LANDMARKS[limb]![bone]!) * 3;
  const to = (t * LANDMARK_COUNT + LIMB_LANDMARKS[limb]![bone + 1]!) * 3;
  const away = positionM[to]! - positionM[from]!;
  const across = Math.sqrt((positionM[to + 1]! - positionM[from + 1]!) ** 2 + (positionM[to + 2]! - positionM[from + 2]!) ** 2);
  const whole = Math.sqrt(away * away + across * across);
  return whole > 0 ? across / whole : 1;
}

/** Angular speed between the frames on both sides, rad/s; 0 where either has no pose. */
function speed({ rotations, performerS }: MovingSource, t: number, joint: number): number {
  const before = Math.max(0, t - 1);
  const after = Math.min(performerS.length - 1, t + 1);
  if (after === before) return 0;
  const a = (before * JOINT_COUNT + joint) * 4;
  const b = (after * JOINT_COUNT + joint) * 4;
  let sum = 0;
  let difference = 0;
  for (let k = 0; k < 4; k++) {
    const apart = rotations[b + k]! - rotations[a + k]!;
    const together = rotations[b + k]! + rotations[a + k]!;
    difference += apart * apart;
    sum += together * together;
  }
  // either sign of a quaternion is the same turn
  difference = Math.min(difference, sum);
  // chord to angle; exact at 0, where an arc cosine of the product is not
  const angle = 4 * Math.asin(Math.min(1, Math.sqrt(difference) / 2));
  return known(angle / (performerS[after]! - performerS[before]!));
}
