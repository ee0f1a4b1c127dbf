/** Balance: the centre of mass stands over the planted feet, in depth, where the picture says least. Lets go under a Cauchy loss. */
import {
  BALANCE_CAUCHY, BALANCE_FORWARD_M, BALANCE_SIGMA_M, MASS, MASS_DOWN, TRUNK_MASS_UP,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { gravityOf } from '../gravity.ts';
import { HIP_AT, PITCH_AT, POINT, POINT_COUNT, ROLL_AT, ROOT_AT, SPINE_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { unitGradient } from './unitVector.ts';

/** Share of the body's mass that each joint carries in the weighted sum, in the order of POINT. */
export const POINT_MASS: readonly number[] = (() => {
  const upper = [MASS.upperArm * (1 - MASS_DOWN.upperArm), MASS.upperArm * MASS_DOWN.upperArm + MASS.forearm * (1 - MASS_DOWN.forearm), MASS.forearm * MASS_DOWN.forearm];
  const lower = [MASS.thigh * (1 - MASS_DOWN.thigh), MASS.thigh * MASS_DOWN.thigh + MASS.shank * (1 - MASS_DOWN.shank), MASS.shank * MASS_DOWN.shank];
  return [...upper, ...lower].flatMap((share) => [share, share]);
})();

/** Row (away·(centre of mass - mean planted ankle) - 5.5 cm · forward·away)/5 cm, Cauchy 1.5. */
export function balanceRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { points, free, globals } = figure;
  const g = gravityOf(globals[PITCH_AT]!, globals[ROLL_AT]!);
  const by = 1 / BALANCE_SIGMA_M;
  const [wx, wy, wz] = g.away;
  for (let t = 0; t < problem.frames; t++) {
    const left = problem.planted[t * 2]!;
    const right = problem.planted[t * 2 + 1]!;
    const weight = Math.max(left, right) * problem.evidence[t]!;
    if (weight === 0) continue;
    const at = t * POINT_COUNT * 3;
    const f = t * 12;
    rows.open(t);
    // Offset of the centre of mass from the mean planted ankle, as a sum over joints whose shares add up to 0.
    const offset = [0, 0, 0];
    for (let k = 0; k < 3; k++) offset[k] = MASS.trunk * (free[f + k]! + TRUNK_MASS_UP * free[f + SPINE_AT + k]!);
    rows.vector(t, ROOT_AT, by * MASS.trunk * wx, by * MASS.trunk * wy, by * MASS.trunk * wz);
    const up = by * MASS.trunk * TRUNK_MASS_UP;
    rows.vector(t, SPINE_AT, up * wx, up * wy, up * wz);
    for (let p = 0; p < POINT_COUNT; p++) {
      let share = POINT_MASS[p]!;
      if (p === POINT.leftAnkle) share -= left / (left + right);
      if (p === POINT.rightAnkle) share -= right / (left + right);
      for (let k = 0; k < 3; k++) offset[k] = offset[k]! + share * points[at + p * 3 + k]!;
      rows.point(t, p, by * share * wx, by * share * wy, by * share * wz, false);
    }
    // Forward of the body: unit of h × s, taken here as h/|h| × s/|s|.
    const h = unitOf(free, f + HIP_AT);
    const s = unitOf(free, f + SPINE_AT);
    const forward = [h[1]! * s[2]! - h[2]! * s[1]!, h[2]! * s[0]! - h[0]! * s[2]!, h[0]! * s[1]! - h[1]! * s[0]!];
    const ahead = by * BALANCE_FORWARD_M;
    unitGradient(rows, t, HIP_AT, free, f + HIP_AT,
      -ahead * (s[1]! * wz - s[2]! * wy), -ahead * (s[2]! * wx - s[0]! * wz), -ahead * (s[0]! * wy - s[1]! * wx));
    unitGradient(rows, t, SPINE_AT, free, f + SPINE_AT,
      -ahead * (wy * h[2]! - wz * h[1]!), -ahead * (wz * h[0]! - wx * h[2]!), -ahead * (wx * h[1]! - wy * h[0]!));
    const along = (v: readonly [number, number, number]): number =>
      v.reduce((sum, component, k) => sum + component * (by * offset[k]! - ahead * forward[k]!), 0);
    rows.global(PITCH_AT, along(g.awayByPitch));
    rows.global(ROLL_AT, along(g.awayByRoll));
    rows.emit(along(g.away), weight, 'cauchy', BALANCE_CAUCHY);
  }
}

function unitOf(free: Float64Array, i: number): number[] {
  const by = 1 / (Math.hypot(free[i]!, free[i + 1]!, free[i + 2]!) || 1e-9);
  return [free[i]! * by, free[i + 1]! * by, free[i + 2]! * by];
}
