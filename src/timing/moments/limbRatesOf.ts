/** How fast each limb goes from step to step. */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import type { Poses } from '../poses.ts';
import type { LimbRates } from './limbRates.ts';
import { LIMB_JOINTS, LIMBS } from './moments.ts';

/** What the speeds are read from: N steps, L limbs. */
export interface LimbRateSources {
  /** The performer at the steps. */
  readonly poses: Poses;
  /** `[N]` seconds on the film. */
  readonly filmTimeS: Float64Array;
  /** The puppet's own height, mm. */
  readonly heightMm: number;
  /** `[N·L·3]` place of each limb's end on the set, mm; NaN where the puppet has no such limb. */
  readonly endMm: Float64Array;
}

const DEG_PER_RAD = 180 / Math.PI;

/** Of a step after a gap: since the last pose before it. */
export function limbRatesOf({ poses, filmTimeS, heightMm, endMm }: LimbRateSources): LimbRates {
  const count = filmTimeS.length;
  const width = LIMBS.length;
  const { rotations } = poses;
  const turnDeg = new Float64Array(count * width).fill(Number.NaN);
  const ways = new Float64Array(count * width).fill(Number.NaN);
  const heightsPerS = new Float64Array(count * width).fill(Number.NaN);
  const limbJoints = LIMBS.map((limb) => LIMB_JOINTS[limb].map((name) => JOINT[name]));
  for (let l = 0; l < width; l++) {
    let posed = -1;
    let placed = -1;
    for (let s = 0; s < count; s++) {
      const at = s * width + l;
      const base = s * JOINT_COUNT;
      if (limbJoints[l]!.every((j) => !Number.isNaN(rotations[(base + j) * 4]!))) {
        let most = 0;
        if (posed >= 0) for (const j of limbJoints[l]!) most = Math.max(most, angleBetween(rotations, (posed * JOINT_COUNT + j) * 4, (base + j) * 4));
        turnDeg[at] = most * DEG_PER_RAD;
        posed = s;
      }
      if (!Number.isNaN(endMm[at * 3]!)) {
        const from = placed < 0 ? at : placed * width + l;
        const way = Math.hypot(endMm[at * 3]! - endMm[from * 3]!, endMm[at * 3 + 1]! - endMm[from * 3 + 1]!, endMm[at * 3 + 2]! - endMm[from * 3 + 2]!);
        ways[at] = way;
        const dt = placed < 0 ? 0 : filmTimeS[s]! - filmTimeS[placed]!;
        heightsPerS[at] = dt > 0 ? way / heightMm / dt : 0;
        placed = s;
      }
    }
  }
  return { turnDeg, endMm: ways, heightsPerS };
}

function angleBetween(q: Float64Array, a: number, b: number): number {
  const together = Math.abs(q[a]! * q[b]! + q[a + 1]! * q[b + 1]! + q[a + 2]! * q[b + 2]! + q[a + 3]! * q[b + 3]!);
  // the sine of half the angle, from the difference, is exact for small turns
  const sign = q[a]! * q[b]! + q[a + 1]! * q[b + 1]! + q[a + 2]! * q[b + 2]! + q[a + 3]! * q[b + 3]! < 0 ? -1 : 1;
  const apart = Math.hypot(q[b]! - sign * q[a]!, q[b + 1]! - sign * q[a + 1]!, q[b + 2]! - sign * q[a + 2]!, q[b + 3]! - sign * q[a + 3]!);
  return 2 * Math.atan2(apart * Math.sqrt(Math.max(0, 1 - (apart / 2) ** 2)), together);
}
