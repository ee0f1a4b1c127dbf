/**
 * Lengths of the bones from how long they look: seen from the side a bone shows its whole length, so the top of the range of
 * its projected lengths over the take is its length. Left and right are one person's: the larger counts.
 */
import { STRAIGHT_ELBOW, STRAIGHT_KNEE } from './constants.ts';
import { BONE_COUNT, BONE_END, BONE_START, LENGTH_OF_BONE, POINT, POINT_COUNT } from './layout.ts';
import type { Observations } from './problem.ts';
import { quantile } from './series.ts';

export interface BodyLengths {
  /** Upper arm, forearm, thigh, shank; metres. */
  readonly limbs: Float64Array;
  /** Hip half-axis, spine, shoulder half-axis; metres. */
  readonly trunk: Float64Array;
}

/**
 * Shares of stature, for a floor only. Source: Drillis and Contini's segment lengths as printed in Winter, Biomechanics and
 * Motor Control of Human Movement (upper arm .186, forearm .146, thigh .245, shank .246; trunk joints .288; values from memory).
 */
const STATURE_SHARE = [0.186, 0.146, 0.245, 0.246, 0.288];
/** The same of the half-distances between the centres of the hips and of the shoulders (values from memory), which a view from the side never shows. */
const HALF_WIDTH_SHARE = { hip: 0.05, shoulder: 0.1 };
/** A length below this share of what the body's other lengths suggest was never seen from the side (chosen: bodies differ by about a tenth). */
const FLOOR_SHARE = 0.85;
/** Visibility below which a landmark's place is no measure of length. */
const LEAST_VISIBLE = 0.3;

/**
 * A limb that reaches this share of its two lengths was straight at some time (chosen: 28° of bend; less than that is what
 * sliding joint landmarks make of a straight limb).
 */
const STRAIGHT_SHARE = 0.97;

/**
 * A middle joint's landmark slides along the limb, now lengthening one bone and now the other, so the tops of both ranges add up
 * to more than the limb, and a straight leg would have to be bent to fit. The whole limb has no middle joint: where it was
 * straight at some time, its own top length (with the bend a straight limb has) sets the sum.
 */
function straighten(limbs: Float64Array, long: (distance: (t: number) => number) => number, back: (t: number, p: number, axis: number) => number): void {
  for (const [upper, ends, bend] of LIMB_ENDS) {
    const whole = Math.max(...ends.map(([p, q]) => {
      const size = long((t) => Math.hypot(back(t, p, 0) - back(t, q, 0), back(t, p, 1) - back(t, q, 1)));
      return Number.isNaN(size) ? 0 : size;
    }));
    const sum = limbs[upper]! + limbs[upper + 1]!;
    if (!(whole > STRAIGHT_SHARE * sum)) continue;
    const by = Math.min(1, whole / (sum * Math.cos(bend / 2)));
    limbs[upper] = limbs[upper]! * by;
    limbs[upper + 1] = limbs[upper + 1]! * by;
  }
}
const LIMB_ENDS = [
  [0, [[POINT.leftShoulder, POINT.leftWrist], [POINT.rightShoulder, POINT.rightWrist]], STRAIGHT_ELBOW],
  [2, [[POINT.leftHip, POINT.leftAnkle], [POINT.rightHip, POINT.rightAnkle]], STRAIGHT_KNEE],
] as const;

/**
 * @param camera the first camera's measurements at K knots
 * @param depthM [K·12] depth of each joint that the pixels are carried back to
 * @param share quantile taken: .95 for a first guess, .9 at the fitted depth (lab)
 * @param least smallest trunk lengths to believe (from the model's world landmarks)
 */
export function measureLengths(camera: Observations, depthM: Float64Array, share: number, least: readonly number[]): BodyLengths {
  const count = depthM.length / POINT_COUNT;
  const back = (t: number, p: number, axis: number): number => {
    const i = t * POINT_COUNT + p;
    return camera.seen[i]! > LEAST_VISIBLE ? (camera.image[i * 2 + axis]! * depthM[i]!) / camera.focalPx : Number.NaN;
  };
  const long = (distance: (t: number) => number): number => quantile(Array.from({ length: count }, (_, t) => distance(t)), share);
  const limbs = new Float64Array(4).fill(Number.NaN);
  for (let b = 0; b < BONE_COUNT; b++) {
    const [start, end] = [BONE_START[b]!, BONE_END[b]!];
    const size = long((t) => Math.hypot(back(t, end, 0) - back(t, start, 0), back(t, end, 1) - back(t, start, 1)));
    const kind = LENGTH_OF_BONE[b]!;
    if (!(size <= limbs[kind]!)) limbs[kind] = Number.isNaN(size) ? limbs[kind]! : size;
  }
  straighten(limbs, long, back);
  const half = (p: number, q: number): number =>
    long((t) => Math.hypot(back(t, p, 0) - back(t, q, 0), back(t, p, 1) - back(t, q, 1)) / 2);
  const middle = (t: number, p: number, axis: number): number => (back(t, p, axis) + back(t, p + 1, axis)) / 2;
  const trunk = Float64Array.of(
    half(POINT.leftHip, POINT.rightHip),
    long((t) => Math.hypot(middle(t, POINT.leftShoulder, 0) - middle(t, POINT.leftHip, 0),
      middle(t, POINT.leftShoulder, 1) - middle(t, POINT.leftHip, 1))),
    half(POINT.leftShoulder, POINT.rightShoulder),
  ).map((size, i) => Math.max(Number.isNaN(size) ? 0 : size, least[i]!));
  const statures = [...limbs, trunk[1]!].map((size, i) => size / STATURE_SHARE[i]!).filter((s) => Number.isFinite(s) && s > 0).sort((a, b) => a - b);
  const stature = statures[Math.floor(statures.length / 2)] ?? Number.NaN;
  for (let i = 0; i < 4; i++) {
    const floor = FLOOR_SHARE * STATURE_SHARE[i]! * stature;
    if (!(limbs[i]! >= floor)) limbs[i] = floor;
  }
  for (const [i, share] of [[0, HALF_WIDTH_SHARE.hip], [2, HALF_WIDTH_SHARE.shoulder]] as const) {
    if (trunk[i]! < FLOOR_SHARE * share * stature) trunk[i] = FLOOR_SHARE * share * stature;
  }
  // hips that are never seen leave no spine at all
  if (trunk[1] === 0 && Number.isFinite(stature)) trunk[1] = STATURE_SHARE[4]! * stature;
  return { limbs, trunk };
}
