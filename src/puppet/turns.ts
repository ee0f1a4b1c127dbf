/**
 * A joint's turn as the numbers that people set: one angle about its axis, or a rotation vector about the parent's forward,
 * up and right axes.
 */
import { fromAxisAngle, IDENTITY, normalise, type Quat } from '../numeric/quaternion.ts';
import type { Vec3 } from '../numeric/vector3.ts';

export const DEG_PER_RAD = 180 / Math.PI;
export const RAD_PER_DEG = Math.PI / 180;

/** Angle about a unit axis of the twist of q = swing · twist, radians in -π..π; 0 where the swing is exactly half a turn. */
export function angleAbout(q: Quat, axis: Vec3): number {
  const along = q[1] * axis[0] + q[2] * axis[1] + q[3] * axis[2];
  const sign = q[0] < 0 ? -1 : 1;
  return Math.abs(q[0]) + Math.abs(along) < 1e-12 ? 0 : 2 * Math.atan2(sign * along, sign * q[0]);
}

/** The twist itself. */
export function twistAbout(q: Quat, axis: Vec3): Quat {
  const along = q[1] * axis[0] + q[2] * axis[1] + q[3] * axis[2];
  if (Math.abs(q[0]) + Math.abs(along) < 1e-12) return IDENTITY;
  return normalise([q[0], along * axis[0] + 0, along * axis[1] + 0, along * axis[2] + 0]);
}

/** The turn by an angle in degrees about a unit axis. */
export function turnAbout(axis: Vec3, angleDeg: number): Quat {
  return fromAxisAngle(axis, angleDeg * RAD_PER_DEG);
}

/** Of the rotation vectors that make the same turn (v, and the way round by 2π), the one nearest to another. */
export function nearestVector(v: Vec3, near: Vec3): Vec3 {
  const size = Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  if (size < 1e-6) return v;
  const along = (v[0] * near[0] + v[1] * near[1] + v[2] * near[2]) / size;
  const turns = Math.round((along - size) / (2 * Math.PI));
  if (turns === 0) return v;
  const by = (size + turns * 2 * Math.PI) / size;
  return [v[0] * by, v[1] * by, v[2] * by];
}
