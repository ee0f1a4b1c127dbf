/**
 * Joint rotations from positions, one unbroken stretch at a time.
 *
 * Where landmarks don't tell two joints apart, the turn is shared by a rule and said so: pelvis → chest half to the spine
 * and half to the chest, chest → head half to the neck and half to the head. The clavicles can't be told from the tilt of
 * the chest and stay at rest. A wrist's rotation includes the roll of the forearm, since elbow and wrist show no roll.
 * Hinges are read as the angle between their bones and are therefore never negative.
 */
import { carryAt, crossAt, dotAt, halfTurnAt, multiplyAt, rotateAt, scaleAt, subtractAt, unitAt } from '../numeric/inPlace.ts';
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';
import type { Stretch } from './gaps.ts';
import { hingeAxes, type LimbRun } from './hingeAxis.ts';
import { FLEXION_SENSE, JOINT, JOINT_COUNT, type JointName } from './joints.ts';
import {
  chestOrientation, footOrientation, fromYZ, headOrientation, leftHandOrientation, pelvisOrientation, rightHandOrientation,
  type SegmentReader,
} from './segments.ts';

const Z = new Float64Array([0, 0, 1]);
const DOWN = new Float64Array([0, -1, 0]);
const REST = new Float64Array([1, 0, 0, 0]);

/** The limb's joints and landmarks, and the joint whose segment carries it. */
interface Limb {
  readonly side: 'left' | 'right';
  readonly kind: 'arm' | 'leg';
  readonly ball: JointName;
  readonly hinge: JointName;
  readonly end: JointName;
  /** Landmark indices of its three joints, from the trunk outward. */
  readonly points: readonly [number, number, number];
}

const LIMBS: readonly Limb[] = (['left', 'right'] as const).flatMap((side): Limb[] => [
  {
    side, kind: 'arm', ball: `${side}Shoulder`, hinge: `${side}Elbow`, end: `${side}Wrist`,
    points: [LANDMARK[`${side}Shoulder`], LANDMARK[`${side}Elbow`], LANDMARK[`${side}Wrist`]],
  },
  {
    side, kind: 'leg', ball: `${side}Hip`, hinge: `${side}Knee`, end: `${side}Ankle`,
    points: [LANDMARK[`${side}Hip`], LANDMARK[`${side}Knee`], LANDMARK[`${side}Ankle`]],
  },
]);

/** What is read of the points in one stretch. */
interface Run {
  /** `[T·33·3]`, and the first number of the stretch's first frame in it. */
  readonly points: Float64Array;
  readonly first: number;
  readonly count: number;
  /** `[count]` set to 1 where a segment shows no direction. */
  readonly doubtful: Uint8Array;
}

/** Numbers of one frame of points. */
const FRAME = LANDMARK_COUNT * 3;

/**
 * Writes the rotations of all joints for the frames of one stretch.
 *
 * @param positionM positions `[T·33·3]`, stage axes
 * @param performerS T times of the performer's own clock
 * @param rotations `[T·J·4]`, written for the frames of the stretch
 * @returns number of frames in which some segment showed no direction (its landmarks fell together) and kept the one before
 */
export function writeJointRotations(
  positionM: Float64Array, performerS: Float64Array, stretch: Stretch, rotations: Float64Array,
): number {
  const count = stretch.to - stretch.from + 1;
  const run: Run = { points: positionM, first: stretch.from * FRAME, count, doubtful: new Uint8Array(count) };
  const times = performerS.subarray(stretch.from, stretch.to + 1);
  /** Where the quaternion of a joint in frame k of the stretch begins. */
  const place = (k: number, joint: number): number => ((stretch.from + k) * JOINT_COUNT + joint) * 4;

  const pelvis = orientations(run, pelvisOrientation);
  const chest = orientations(run, chestOrientation);
  const head = orientations(run, headOrientation);
  const half = new Float64Array(4);
  for (let k = 0; k < count; k++) {
    const at = k * 4;
    for (let c = 0; c < 4; c++) rotations[place(k, JOINT.pelvis) + c] = pelvis[at + c]!;
    multiplyAt(pelvis, at, chest, at, half, 0, true);
    halfTurnAt(half, 0, half, 0);
    rotations.set(half, place(k, JOINT.spine));
    rotations.set(half, place(k, JOINT.chest));
    multiplyAt(chest, at, head, at, half, 0, true);
    halfTurnAt(half, 0, half, 0);
    rotations.set(half, place(k, JOINT.neck));
    rotations.set(half, place(k, JOINT.head));
    rotations.set(REST, place(k, JOINT.leftClavicle));
    rotations.set(REST, place(k, JOINT.rightClavicle));
  }
  for (const limb of LIMBS) writeLimb(run, limb, limb.kind === 'arm' ? chest : pelvis, times, rotations, place);
  return run.doubtful.reduce((sum, one) => sum + one, 0);
}

/** Ball, hinge and end of one limb; `carrier[count·4]` is the segment that it hangs on. */
function writeLimb(
  run: Run, limb: Limb, carrier: Float64Array, times: Float64Array, rotations: Float64Array,
  place: (k: number, joint: number) => number,
): void {
  const sense = FLEXION_SENSE[limb.hinge] ?? 1;
  const [ball, hinge, end] = [JOINT[limb.ball], JOINT[limb.hinge], JOINT[limb.end]];
  const hand = limb.side === 'left' ? leftHandOrientation : rightHandOrientation;
  const bones = readLimb(run, limb, sense, carrier);
  const axes = hingeAxes(bones, times);
  const up = new Float64Array(3);
  const upper = new Float64Array(4);
  const lower = new Float64Array(4);
  const shankZ = new Float64Array(3);
  const endQ = new Float64Array(4);
  const lastEnd = REST.slice();
  for (let k = 0; k < run.count; k++) {
    scaleAt(bones.along, k * 3, -1, up, 0);
    if (!fromYZ(up, 0, axes, k * 3, upper, 0)) upper.set(REST);
    const at = place(k, hinge);
    const halfRad = (sense * bones.flexionRad[k]!) / 2;
    rotations[at] = Math.cos(halfRad);
    rotations[at + 1] = 0;
    rotations[at + 2] = 0;
    // + 0 turns a minus zero into a plain one
    rotations[at + 3] = Math.sin(halfRad) + 0;
    multiplyAt(carrier, k * 4, upper, 0, rotations, place(k, ball), true);
    multiplyAt(upper, 0, rotations, at, lower, 0);
    let seen: boolean;
    if (limb.kind === 'arm') {
      seen = hand(run.points, run.first + k * FRAME, endQ, 0);
    } else {
      rotateAt(lower, 0, Z, 0, shankZ, 0);
      seen = footOrientation(run.points, run.first + k * FRAME, limb.side, shankZ, endQ, 0);
    }
    if (seen) multiplyAt(lower, 0, endQ, 0, lastEnd, 0, true);
    else run.doubtful[k] = 1;
    rotations.set(lastEnd, place(k, end));
  }
}

/** Orientation of a segment in every frame `[count·4]`; where it can't be told, that of the frame before (at first the rest). */
function orientations({ points, first, count, doubtful }: Run, read: SegmentReader): Float64Array {
  const out = new Float64Array(count * 4);
  for (let k = 0; k < count; k++) {
    if (read(points, first + k * FRAME, out, k * 4)) continue;
    doubtful[k] = 1;
    if (k > 0) out.copyWithin(k * 4, k * 4 - 4, k * 4);
    else out.set(REST);
  }
  return out;
}

/**
 * The bones of a limb in every frame, and what they say about its bending axis.
 *
 * Prior of the knee: the pelvis' axis to the right, as far as it is square to the thigh (nothing for a thigh straight
 * out to the side). Prior of the elbow: the chest's axis to the right, carried along by the smallest turn that takes the
 * hanging arm to where the arm is (the crease of the elbow of a hanging arm faces forward); that turn is not defined for
 * an arm straight up along the trunk, and the prior's weight falls to nothing there.
 */
function readLimb({ points, first, count, doubtful }: Run, limb: Limb, sense: 1 | -1, carrier: Float64Array): LimbRun {
  const along = new Float64Array(count * 3);
  const bend = new Float64Array(count * 3);
  const prior = new Float64Array(count * 3);
  const flexionRad = new Float64Array(count);
  const [root, middle, tip] = limb.points.map((landmark) => first + landmark * 3) as [number, number, number];
  const bone = new Float64Array(3);
  const lower = DOWN.slice();
  const down = new Float64Array(3);
  for (let k = 0; k < count; k++) {
    const at = k * 3;
    const frame = k * FRAME;
    subtractAt(points, middle + frame, points, root + frame, bone, 0);
    if (!unitAt(bone, 0, along, at)) {
      doubtful[k] = 1;
      if (k > 0) along.copyWithin(at, at - 3, at);
      else along.set(DOWN);
    }
    subtractAt(points, tip + frame, points, middle + frame, bone, 0);
    if (!unitAt(bone, 0, lower, 0)) doubtful[k] = 1;
    crossAt(along, at, lower, 0, bend, at);
    flexionRad[k] = Math.atan2(Math.sqrt(dotAt(bend, at, bend, at)), dotAt(along, at, lower, 0));
    scaleAt(bend, at, sense, bend, at);
    rotateAt(carrier, k * 4, Z, 0, prior, at);
    if (limb.kind === 'leg') continue;
    rotateAt(carrier, k * 4, DOWN, 0, down, 0);
    const weight = (1 + dotAt(down, 0, along, at)) / 2;
    if (carryAt(down, 0, along, at, prior, at, prior, at)) scaleAt(prior, at, weight, prior, at);
    else prior.fill(0, at, at + 3);
  }
  return { along, bend, flexionRad, prior };
}
