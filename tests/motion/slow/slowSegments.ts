/**
 * The plain way, kept to check the fast one against (tests/motion/slowReference.test.ts); small objects instead of typed arrays.
 *
 * Orientation of the body's segments that three or more landmarks show directly: pelvis, chest, head, hands, feet.
 *
 * Rest pose: upright, arms hanging, palms to the thighs, feet square to the shanks; there the axes of every segment are
 * those of the stage (x forward, y up, z to the performer's right). All functions take stage coordinates in metres and
 * give the quaternion segment → stage, or `undefined` where the landmarks fall together and show no direction.
 *
 * What these landmarks can't tell: a lean of the trunk from a bend at the hips. There is no landmark between hips and
 * shoulders, so the trunk's lean goes to the pelvis as a whole; the hips make up for it.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../../src/pose/landmarks.ts';
import { fromBasis, type Quat } from '../../../src/numeric/quaternion.ts';
import { cross, midpoint, readVec3, reject, subtract, unit, type Vec3 } from '../../../src/numeric/vector3.ts';

/** Positions of one frame by landmark index (LANDMARK). */
export type FramePoints = (landmark: number) => Vec3;

/**
 * @param positionM positions `[T·33·3]`
 * @param frame index of the frame
 */
export function pointsOf(positionM: Float64Array, frame: number): FramePoints {
  const base = frame * LANDMARK_COUNT;
  return (landmark) => readVec3(positionM, base + landmark);
}

/** Landmark indices of the end of a limb, by side. */
const HAND = {
  left: { wrist: LANDMARK.leftWrist, index: LANDMARK.leftIndex, pinky: LANDMARK.leftPinky },
  right: { wrist: LANDMARK.rightWrist, index: LANDMARK.rightIndex, pinky: LANDMARK.rightPinky },
} as const;
const FOOT = {
  left: { heel: LANDMARK.leftHeel, toes: LANDMARK.leftFootIndex },
  right: { heel: LANDMARK.rightHeel, toes: LANDMARK.rightFootIndex },
} as const;

/** Axes with z along the first direction and y as near to the second as a right angle allows. */
function fromZY(z: Vec3, y: Vec3): Quat | undefined {
  const uz = unit(z);
  const uy = uz && unit(reject(y, uz));
  return uz && uy && fromBasis(cross(uy, uz), uy, uz);
}

/** Axes with y along the first direction and z as near to the second as a right angle allows. */
export function fromYZ(y: Vec3, z: Vec3): Quat | undefined {
  const uy = unit(y);
  const uz = uy && unit(reject(z, uy));
  return uy && uz && fromBasis(cross(uy, uz), uy, uz);
}

/** Axes with y along the first direction and x as near to the second as a right angle allows. */
function fromYX(y: Vec3, x: Vec3): Quat | undefined {
  const uy = unit(y);
  const ux = uy && unit(reject(x, uy));
  return ux && uy && fromBasis(ux, uy, cross(ux, uy));
}

/** Axes with x along the first direction and z as near to the second as a right angle allows. */
function fromXZ(x: Vec3, z: Vec3): Quat | undefined {
  const ux = unit(x);
  const uz = ux && unit(reject(z, ux));
  return ux && uz && fromBasis(ux, cross(uz, ux), uz);
}

function trunkUp(p: FramePoints): Vec3 {
  return subtract(midpoint(p(LANDMARK.leftShoulder), p(LANDMARK.rightShoulder)), midpoint(p(LANDMARK.leftHip), p(LANDMARK.rightHip)));
}

/** z from the left hip to the right, y along the trunk. */
export function pelvisOrientation(p: FramePoints): Quat | undefined {
  return fromZY(subtract(p(LANDMARK.rightHip), p(LANDMARK.leftHip)), trunkUp(p));
}

/** z from the left shoulder to the right, y along the trunk. */
export function chestOrientation(p: FramePoints): Quat | undefined {
  return fromZY(subtract(p(LANDMARK.rightShoulder), p(LANDMARK.leftShoulder)), trunkUp(p));
}

/**
 * z from the left ear to the right; x from between the ears to the mean of the nose and the middle of the eyes. On an
 * upright head the eyes lie a little above the ears and the nose a little below, so their mean is level with the ears
 * (within about 5° on the published landmarks of the squatting woman): an upright head reads a nod near zero.
 */
export function headOrientation(p: FramePoints): Quat | undefined {
  const ears = midpoint(p(LANDMARK.leftEar), p(LANDMARK.rightEar));
  const face = midpoint(midpoint(p(LANDMARK.leftEye), p(LANDMARK.rightEye)), p(LANDMARK.nose));
  const z = unit(subtract(p(LANDMARK.rightEar), p(LANDMARK.leftEar)));
  const x = z && unit(reject(subtract(face, ears), z));
  return z && x && fromBasis(x, cross(z, x), z);
}

/**
 * y from the knuckles to the wrist; x across the knuckles, from the little finger to the index, which points forward on
 * either hand in the rest pose.
 */
export function handOrientation(p: FramePoints, side: 'left' | 'right'): Quat | undefined {
  const hand = HAND[side];
  const index = p(hand.index);
  const pinky = p(hand.pinky);
  return fromYX(subtract(p(hand.wrist), midpoint(index, pinky)), subtract(index, pinky));
}

/**
 * x from heel to toes; z as near to the shank's own z as a right angle allows. So the ankle is read as flexion and as
 * toes turned in or out, never as a tilt onto the foot's edge: ankle, heel and toes do span a plane, but the ankle lies
 * only a hand's breadth off the line of the foot, and its error in depth would tilt the foot by tens of degrees.
 *
 * @param shankZ unit z axis of the shank in the stage
 */
export function footOrientation(p: FramePoints, side: 'left' | 'right', shankZ: Vec3): Quat | undefined {
  return fromXZ(subtract(p(FOOT[side].toes), p(FOOT[side].heel)), shankZ);
}
