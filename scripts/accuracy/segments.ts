/**
 * Where the long segments of a body point in one frame: the common ground on which truth and measurement are compared.
 *
 * Both sides bring their own way to these directions, the true figure from its joint positions and the motion from its
 * rotations, and every angle is then read off by the same code in `bodyAngles.ts`.
 */
import { cross, dot, length, scale, sub, type Vec3 } from '../clips/motion/rotation.ts';

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

/** Unit vectors, from the end nearer the trunk to the end farther away. */
export interface LimbSegments {
  readonly upperArm: Vec3;
  readonly forearm: Vec3;
  readonly thigh: Vec3;
  readonly shank: Vec3;
}

/** Two axes of a part of the trunk, unit vectors square to each other: the third, forward, is up × right. */
export interface TrunkAxes {
  readonly up: Vec3;
  readonly right: Vec3;
}

/**
 * Unit vectors of one frame in any one right-handed frame of reference whose Y points up.
 * A direction that is not known holds NaN.
 */
export interface Segments {
  /** Right: from the left to the right hip. Up: from mid-hip to mid-shoulder, as near as a right angle allows. */
  readonly pelvis: TrunkAxes;
  /** Right: from the left to the right shoulder. Up: from mid-hip to mid-shoulder, as near as a right angle allows. */
  readonly chest: TrunkAxes;
  /** Where the face points. */
  readonly face: Vec3;
  readonly left: LimbSegments;
  readonly right: LimbSegments;
}

/** Unit vector from a to b; NaN where the two coincide or either is unknown, so that no angle is made up. */
export function direction(from: Vec3, to: Vec3): Vec3 {
  const line = sub(to, from);
  const size = length(line);
  return size > 1e-9 ? scale(line, 1 / size) : [Number.NaN, Number.NaN, Number.NaN];
}

/** `right` as it is and `up` made square to it. */
export function trunkAxes(right: Vec3, up: Vec3): TrunkAxes {
  return { right, up: direction([0, 0, 0], sub(up, scale(right, dot(up, right)))) };
}

/** Angle between two unit vectors, radians in 0..pi; exact near 0 and pi where an arc cosine alone is not. */
export function angleBetweenRad(a: Vec3, b: Vec3): number {
  return Math.atan2(length(cross(a, b)), dot(a, b));
}
