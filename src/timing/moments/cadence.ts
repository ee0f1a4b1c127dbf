/** The cadence of a walk, from the thighs that pass each other. */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import type { Motion } from '../../motion/motion.ts';

/** Thighs that part by less than this between two passings do not walk, degrees. Our choice. */
const LEAST_PART_DEG = 15;
const DEG_PER_RAD = 180 / Math.PI;

/**
 * Container times at which one thigh passes the other, each once in every step. Landings would do as well, but contacts begin and
 * end at frames and are softened by the fit; a passing lies between two frames and is quick.
 */
export function thighPassings({ rotations, timesS }: Pick<Motion, 'rotations' | 'timesS'>): readonly number[] {
  const ahead = (t: number): number => (forwardOf(rotations, t, JOINT.leftHip) - forwardOf(rotations, t, JOINT.rightHip)) * DEG_PER_RAD;
  const out: number[] = [];
  let before = ahead(0);
  let most = Math.abs(before);
  for (let t = 1; t < timesS.length; t++) {
    const now = ahead(t);
    if (Number.isNaN(now) || Number.isNaN(before)) {
      before = now;
      most = 0;
      continue;
    }
    if ((before < 0) !== (now < 0)) {
      // a passing counts when the thighs were apart since the last one; the first of a walk begins from standing
      if (most >= LEAST_PART_DEG) out.push(timesS[t - 1]! + (before / (before - now)) * (timesS[t]! - timesS[t - 1]!));
      most = 0;
    }
    most = Math.max(most, Math.abs(now));
    before = now;
  }
  return out;
}

/** Steps a minute of the container's time; NaN for fewer than two passings. */
export function cadencePerMin(passingsS: readonly number[]): number {
  return passingsS.length < 2 ? Number.NaN : (60 * (passingsS.length - 1)) / (passingsS[passingsS.length - 1]! - passingsS[0]!);
}

/** How far a thigh swings forward against the pelvis, radians. */
function forwardOf(rotations: Float64Array, t: number, joint: number): number {
  const at = (t * JOINT_COUNT + joint) * 4;
  const [w, x, y, z] = [rotations[at]!, rotations[at + 1]!, rotations[at + 2]!, rotations[at + 3]!];
  // the thigh points down at rest: its direction (0, -1, 0) turned
  return Math.atan2(-(2 * (x * y - w * z)), 1 - 2 * (x * x + z * z));
}
