/**
 * A turn parted into a twist about an axis that the child carries along (a bone) and the swing that puts that axis where
 * it goes: q = swing · twist. The swing is the smallest turn that moves the axis so; its own axis is square to it.
 */
import { conjugate, fromAxisAngle, multiply, type Quat } from './quaternion.ts';
import type { Vec3 } from './vector3.ts';

export interface SwingTwist {
  readonly swing: Quat;
  readonly twist: Quat;
  /** Signed angle of the twist about the axis, radians in -π..π. */
  readonly twistRad: number;
  /** How far the swing moves the axis, radians in 0..π. */
  readonly swingRad: number;
  /** The swing is so near to half a turn that the twist can't be told well. */
  readonly singular: boolean;
}

/**
 * Half width of the singular zone, radians: a swing of more than 170° puts the axis within 10° of its reverse, where an
 * error of 1° may turn the twist by twelve (2/sin 10°). Our choice.
 */
export const TWIST_ZONE_RAD = (10 * Math.PI) / 180;

/**
 * @param q unit quaternion, child relative to parent
 * @param axis unit vector in the child's axes (the same numbers as in the parent's at rest)
 * @param zoneRad half width of the zone told as singular
 * @returns at a swing of exactly half a turn, where no twist is defined, a twist of 0
 */
export function swingTwist(q: Quat, axis: Vec3, zoneRad: number = TWIST_ZONE_RAD): SwingTwist {
  const sign = q[0] < 0 ? -1 : 1;
  const w = sign * q[0];
  const along = sign * (q[1] * axis[0] + q[2] * axis[1] + q[3] * axis[2]);
  // the vector part square to the axis; its size and that of (w, along) are sine and cosine of half the swing
  const x = q[1] * sign - along * axis[0];
  const y = q[2] * sign - along * axis[1];
  const z = q[3] * sign - along * axis[2];
  const kept = Math.sqrt(w * w + along * along);
  const swingRad = 2 * Math.atan2(Math.sqrt(x * x + y * y + z * z), kept);
  const twistRad = kept < 1e-12 ? 0 : 2 * Math.atan2(along, w);
  const twist = fromAxisAngle(axis, twistRad);
  return { swing: multiply(q, conjugate(twist)), twist, twistRad, swingRad, singular: Math.PI - swingRad < zoneRad };
}
