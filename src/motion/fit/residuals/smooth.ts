/**
 * Smoothness: accelerations are small. Written as a density over time, so that the same move costs the same at 24, 30 or 60
 * frames a second and at uneven times.
 */
import {
  LAB_MEMORY, LAB_RATE, SMOOTH_DIRECTION, SMOOTH_ROOT_DEPTH_M, SMOOTH_ROOT_M, SMOOTH_TRUNK_M,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE, BONE_COUNT, HIP_AT, SPINE_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

/** A second difference's sigma at the lab's rate, as a density: sigma of (units a second²)·√(seconds). */
const density = (secondDifference: number): number => (secondDifference * LAB_MEMORY * LAB_RATE * LAB_RATE) / Math.sqrt(LAB_RATE);
const FREE_DENSITY = [SMOOTH_ROOT_M, SMOOTH_ROOT_M, SMOOTH_ROOT_DEPTH_M, ...new Array<number>(9).fill(SMOOTH_TRUNK_M)].map(density);
const DIRECTION_DENSITY = density(SMOOTH_DIRECTION);

/** Rows √Δt·(acceleration by divided differences)/density for root, trunk vectors and directions. */
export function smoothRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { free, directions } = figure;
  const { arms, legs, hips } = problem.looseness;
  for (let t = 2; t < problem.frames; t++) {
    const early = problem.timesS[t - 1]! - problem.timesS[t - 2]!;
    const late = problem.timesS[t]! - problem.timesS[t - 1]!;
    const span = (early + late) / 2;
    const root = Math.sqrt(span);
    // Divided second difference: c0·x(t-2) + c1·x(t-1) + c2·x(t).
    const c0 = root / (early * span);
    const c2 = root / (late * span);
    const c1 = -c0 - c2;
    for (let v = 0; v < 12; v++) {
      const i = t * 12 + v;
      const by = 1 / (FREE_DENSITY[v]! * (v >= HIP_AT && v < SPINE_AT ? hips : 1));
      rows.open(t);
      rows.free(t - 2, v, c0 * by);
      rows.free(t - 1, v, c1 * by);
      rows.free(t, v, c2 * by);
      rows.emit((c0 * free[i - 24]! + c1 * free[i - 12]! + c2 * free[i]!) * by, 1);
    }
    for (let bone = 0; bone < BONE_COUNT; bone++) {
      const i = (t * BONE_COUNT + bone) * 3;
      const across = bone < BONE.leftThigh ? arms : legs;
      for (let k = 0; k < 3; k++) {
        const by = 1 / (DIRECTION_DENSITY * (k < 2 ? across : 1));
        const x = k === 0 ? by : 0;
        const y = k === 1 ? by : 0;
        const z = k === 2 ? by : 0;
        rows.open(t);
        rows.direction(t - 2, bone, c0 * x, c0 * y, c0 * z);
        rows.direction(t - 1, bone, c1 * x, c1 * y, c1 * z);
        rows.direction(t, bone, c2 * x, c2 * y, c2 * z);
        rows.emit((c0 * directions[i - 48 + k]! + c1 * directions[i - 24 + k]! + c2 * directions[i + k]!) * by, 1);
      }
    }
  }
}
