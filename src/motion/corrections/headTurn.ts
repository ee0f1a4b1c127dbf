/** The head's turn and nod against the trunk, and turning it by hand: its landmarks ride on the trunk and are turned about the ears. */
import { fromAxisAngle, multiply, rotate } from '../../numeric/quaternion.ts';
import { add, cross, dot, midpoint, reject, subtract, unit, type Vec3 } from '../../numeric/vector3.ts';
import { LANDMARK } from '../../pose/landmarks.ts';
import { headOrientation } from '../segments.ts';

/** Place of a landmark of the head in one frame, metres in any right-handed frame. */
export type HeadPoints = (landmark: number) => Vec3;

/** Axes of the trunk: forward, up along it, to the performer's right; unit vectors of any right-handed frame. */
export interface TrunkAxes {
  readonly forward: Vec3;
  readonly up: Vec3;
  readonly right: Vec3;
}

/** @returns `undefined` where spine or shoulders have no direction */
export function trunkAxes(spine: Vec3, toRightShoulder: Vec3): TrunkAxes | undefined {
  const right = unit(toRightShoulder);
  const up = right && unit(reject(spine, right));
  return right && up && { forward: cross(up, right), up, right };
}

/**
 * Turn (positive to the performer's left) and nod (positive down) of the head, radians; `undefined` where it has no direction.
 *
 * @param points landmarks as triples in the model's order from index `first` on, metres, in the frame of the trunk's axes; their origin doesn't matter
 */
export function headAngles(points: Float64Array, first: number, trunk: TrunkAxes): { readonly turnRad: number; readonly nodRad: number } | undefined {
  const q = new Float64Array(4);
  if (!headOrientation(points, first, q, 0)) return undefined;
  const face = rotate([q[0]!, q[1]!, q[2]!, q[3]!], [1, 0, 0]);
  const [x, y, z] = [dot(face, trunk.forward), dot(face, trunk.up), dot(face, trunk.right)];
  return { turnRad: Math.atan2(-z, x), nodRad: Math.atan2(-y, Math.hypot(x, z)) };
}

/** Where a landmark of the head is after the head was turned to the left and nodded down by so much. */
export function turnedHead(head: HeadPoints, trunk: TrunkAxes, turnRad: number, nodRad: number): (at: Vec3) => Vec3 {
  const middle = midpoint(head(LANDMARK.leftEar), head(LANDMARK.rightEar));
  const acrossFace = unit(reject(subtract(head(LANDMARK.rightEar), head(LANDMARK.leftEar)), trunk.up)) ?? trunk.right;
  const turn = multiply(fromAxisAngle(trunk.up, turnRad), fromAxisAngle(acrossFace, -nodRad));
  return (at) => add(middle, rotate(turn, subtract(at, middle)));
}
