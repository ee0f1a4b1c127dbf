/** Where a point that is fixed to a bone is on the set: `pointOn` of kinematics without making arrays, since every step asks for dozens. */
import type { Stance } from '../puppet/kinematics.ts';

/**
 * @param x, y, z from the bone's start, in its axes, mm
 * @param into `[3]` mm on the set
 */
export function placeOnBone({ startMm, orientation }: Stance, bone: number, x: number, y: number, z: number, into: Float64Array): void {
  const a = orientation[bone * 4]!;
  const b = orientation[bone * 4 + 1]!;
  const c = orientation[bone * 4 + 2]!;
  const d = orientation[bone * 4 + 3]!;
  // v + 2w(u × v) + 2u × (u × v)
  const tx = 2 * (c * z - d * y);
  const ty = 2 * (d * x - b * z);
  const tz = 2 * (b * y - c * x);
  into[0] = startMm[bone * 3]! + x + a * tx + c * tz - d * ty;
  into[1] = startMm[bone * 3 + 1]! + y + a * ty + d * tx - b * tz;
  into[2] = startMm[bone * 3 + 2]! + z + a * tz + b * ty - c * tx;
}
