/**
 * Orientation of the body's segments that three or more landmarks show directly: pelvis, chest, head, hands, feet.
 *
 * Rest pose: upright, arms hanging, palms to the thighs, feet square to the shanks; there the axes of every segment are
 * those of the stage (x forward, y up, z to the performer's right). All functions take one frame in stage coordinates and
 * write the quaternion segment → stage; where the landmarks fall together and show no direction they return `false` and
 * write nothing.
 *
 * What these landmarks can't tell: a lean of the trunk from a bend at the hips. There is no landmark between hips and
 * shoulders, so the trunk's lean goes to the pelvis as a whole; the hips make up for it.
 */
import { LANDMARK } from '../pose/landmarks.ts';
import { crossAt, fromBasisAt, midpointAt, squareUnitAt, subtractAt, unitAt } from '../numeric/inPlace.ts';

/**
 * @param points `[T·33·3]` metres, stage axes
 * @param first index of the first number of the frame in `points`
 * @param to,at where the quaternion goes
 */
export type SegmentReader = (points: Float64Array, first: number, to: Float64Array, at: number) => boolean;

/** Where a landmark's x lies behind the first number of its frame. */
const offsets = <K extends string>(names: Readonly<Record<K, number>>): Readonly<Record<K, number>> =>
  Object.fromEntries(Object.entries<number>(names).map(([name, index]) => [name, index * 3])) as Record<K, number>;

const P = offsets(LANDMARK);
const HAND = {
  left: { wrist: P.leftWrist, index: P.leftIndex, pinky: P.leftPinky },
  right: { wrist: P.rightWrist, index: P.rightIndex, pinky: P.rightPinky },
} as const;
const FOOT = {
  left: { heel: P.leftHeel, toes: P.leftFootIndex },
  right: { heel: P.rightHeel, toes: P.rightFootIndex },
} as const;

/** The frame's axes x, y, z while they are worked out, and two more vectors; used up within each call. */
const work = new Float64Array(15);
const X = 0;
const Y = 3;
const Z = 6;
const A = 9;
const B = 12;

function writeAxes(to: Float64Array, at: number): true {
  fromBasisAt(work, X, work, Y, work, Z, to, at);
  return true;
}

/** z from the left point to the right one, y along the trunk, made square. */
function acrossTrunk(points: Float64Array, left: number, right: number, first: number, to: Float64Array, at: number): boolean {
  midpointAt(points, first + P.leftShoulder, points, first + P.rightShoulder, work, A);
  midpointAt(points, first + P.leftHip, points, first + P.rightHip, work, B);
  subtractAt(work, A, work, B, work, A);
  subtractAt(points, right, points, left, work, B);
  if (!unitAt(work, B, work, Z) || !squareUnitAt(work, A, work, Z, work, Y)) return false;
  crossAt(work, Y, work, Z, work, X);
  return writeAxes(to, at);
}

/** z from the left hip to the right, y along the trunk. */
export const pelvisOrientation: SegmentReader = (points, first, to, at) =>
  acrossTrunk(points, first + P.leftHip, first + P.rightHip, first, to, at);

/** z from the left shoulder to the right, y along the trunk. */
export const chestOrientation: SegmentReader = (points, first, to, at) =>
  acrossTrunk(points, first + P.leftShoulder, first + P.rightShoulder, first, to, at);

/**
 * z from the left ear to the right; x from between the ears to the mean of the nose and the middle of the eyes. On an
 * upright head the eyes lie a little above the ears and the nose a little below, so their mean is level with the ears
 * (within about 5° on the published landmarks of the squatting woman): an upright head reads a nod near zero.
 */
export const headOrientation: SegmentReader = (points, first, to, at) => {
  midpointAt(points, first + P.leftEye, points, first + P.rightEye, work, A);
  midpointAt(work, A, points, first + P.nose, work, A);
  midpointAt(points, first + P.leftEar, points, first + P.rightEar, work, B);
  subtractAt(work, A, work, B, work, A);
  subtractAt(points, first + P.rightEar, points, first + P.leftEar, work, B);
  if (!unitAt(work, B, work, Z) || !squareUnitAt(work, A, work, Z, work, X)) return false;
  crossAt(work, Z, work, X, work, Y);
  return writeAxes(to, at);
};

/**
 * y from the knuckles to the wrist; x across the knuckles, from the little finger to the index, which points forward on
 * either hand in the rest pose.
 */
function handOrientation(side: 'left' | 'right'): SegmentReader {
  const { wrist, index, pinky } = HAND[side];
  return (points, first, to, at) => {
    midpointAt(points, first + index, points, first + pinky, work, A);
    subtractAt(points, first + wrist, work, A, work, A);
    subtractAt(points, first + index, points, first + pinky, work, B);
    if (!unitAt(work, A, work, Y) || !squareUnitAt(work, B, work, Y, work, X)) return false;
    crossAt(work, X, work, Y, work, Z);
    return writeAxes(to, at);
  };
}

export const leftHandOrientation = handOrientation('left');
export const rightHandOrientation = handOrientation('right');

/**
 * x from heel to toes; z as near to the shank's own z as a right angle allows. So the ankle is read as flexion and as
 * toes turned in or out, never as a tilt onto the foot's edge: ankle, heel and toes do span a plane, but the ankle lies
 * only a hand's breadth off the line of the foot, and its error in depth would tilt the foot by tens of degrees.
 *
 * @param shankZ array whose first three numbers are the unit z axis of the shank in the stage
 */
export function footOrientation(
  points: Float64Array, first: number, side: 'left' | 'right', shankZ: Float64Array, to: Float64Array, at: number,
): boolean {
  subtractAt(points, first + FOOT[side].toes, points, first + FOOT[side].heel, work, A);
  if (!unitAt(work, A, work, X) || !squareUnitAt(shankZ, 0, work, X, work, Z)) return false;
  crossAt(work, Z, work, X, work, Y);
  return writeAxes(to, at);
}

/**
 * y along the first vector and z as near to the second as a right angle allows.
 *
 * @param y,i vector along the segment, any length
 * @param z,j vector, any length
 */
export function fromYZ(
  y: Float64Array, i: number, z: Float64Array, j: number, to: Float64Array, at: number,
): boolean {
  if (!unitAt(y, i, work, Y) || !squareUnitAt(z, j, work, Y, work, Z)) return false;
  crossAt(work, Y, work, Z, work, X);
  return writeAxes(to, at);
}
