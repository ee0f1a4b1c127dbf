/** Feet that stand: a planted ankle stays where it is, and planted ankles share one floor. */
import {
  FLOOR_CAUCHY, FLOOR_SIGMA_M, LAB_MEMORY, LAB_RATE, PLANTED_STEP_M,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { gravityOf } from '../gravity.ts';
import { FLOOR_AT, PITCH_AT, POINT, POINT_COUNT, ROLL_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

const ANKLES = [POINT.leftAnkle, POINT.rightAnkle];
/** Density of a planted ankle's speed: sigma of (metres a second)·√(seconds). */
const PLANTED_DENSITY = (PLANTED_STEP_M * LAB_MEMORY * LAB_RATE) / Math.sqrt(LAB_RATE);

/** Rows (ankle(t) - ankle(t-1))/(√Δt·density) in x, y, z with the constant lengths, where a foot is planted in both. */
export function plantedRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { points } = figure;
  for (let t = 1; t < problem.frames; t++) {
    const step = problem.timesS[t]! - problem.timesS[t - 1]!;
    const by = 1 / (Math.sqrt(step) * PLANTED_DENSITY);
    for (let foot = 0; foot < 2; foot++) {
      const weight = Math.min(problem.planted[t * 2 + foot]!, problem.planted[t * 2 - 2 + foot]!);
      if (weight === 0) continue;
      const point = ANKLES[foot]!;
      const now = (t * POINT_COUNT + point) * 3;
      const before = now - POINT_COUNT * 3;
      for (let k = 0; k < 3; k++) {
        const x = k === 0 ? by : 0;
        const y = k === 1 ? by : 0;
        const z = k === 2 ? by : 0;
        rows.open(t);
        rows.point(t, point, x, y, z, false);
        rows.point(t - 1, point, -x, -y, -z, false);
        rows.emit((points[now + k]! - points[before + k]!) * by, weight);
      }
    }
  }
}

/** Rows (up·ankle - floor)/3 cm for planted ankles, Cauchy 1.5: one floor for the take, which also tells the camera's pitch. */
export function floorRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { points, globals } = figure;
  const g = gravityOf(globals[PITCH_AT]!, globals[ROLL_AT]!);
  const by = 1 / FLOOR_SIGMA_M;
  for (let t = 0; t < problem.frames; t++) {
    for (let foot = 0; foot < 2; foot++) {
      const weight = problem.planted[t * 2 + foot]! * problem.evidence[t]!;
      if (weight === 0) continue;
      const point = ANKLES[foot]!;
      const i = (t * POINT_COUNT + point) * 3;
      const along = (v: readonly [number, number, number]): number => by * (points[i]! * v[0] + points[i + 1]! * v[1] + points[i + 2]! * v[2]);
      rows.open(t);
      rows.point(t, point, by * g.up[0], by * g.up[1], by * g.up[2], false);
      rows.global(PITCH_AT, along(g.upByPitch));
      rows.global(ROLL_AT, along(g.upByRoll));
      rows.global(FLOOR_AT, -by);
      rows.emit(along(g.up) - globals[FLOOR_AT]! * by, weight, 'cauchy', FLOOR_CAUCHY);
    }
  }
}
