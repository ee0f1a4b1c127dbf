/** Image residual: where each joint is seen against where its landmark is, in both directions of the picture. */
import { IMAGE_HUBER } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { POINT_COUNT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

/** Nearest depth at which a projection is trusted, metres: keeps a wild trial step from dividing by zero. */
export const NEAREST_M = 0.2;

/** Rows √v·(f·X/Z - x)/σ and the same for y, Huber at 2σ, weighted by the knot's evidence. */
export function imageRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  for (const camera of problem.cameras) {
    const { rotation: r, translation: c, focalPx, sigmaPx } = camera;
    const by = focalPx / sigmaPx;
    for (let t = 0; t < problem.frames; t++) {
      const evidence = problem.evidence[t]!;
      for (let p = 0; p < POINT_COUNT; p++) {
        const i = t * POINT_COUNT + p;
        const weight = camera.weight[i]! * evidence;
        if (weight === 0) continue;
        const x = figure.seen[i * 3]!;
        const y = figure.seen[i * 3 + 1]!;
        const z = figure.seen[i * 3 + 2]!;
        const u = r[0]! * x + r[1]! * y + r[2]! * z + c[0]!;
        const v = r[3]! * x + r[4]! * y + r[5]! * z + c[1]!;
        const w = Math.max(NEAREST_M, r[6]! * x + r[7]! * y + r[8]! * z + c[2]!);
        for (let axis = 0; axis < 2; axis++) {
          const across = axis === 0 ? u : v;
          const row = axis * 3;
          const a = by / w;
          const b = (-by * across) / (w * w);
          rows.open(t);
          rows.point(t, p, a * r[row]! + b * r[6]!, a * r[row + 1]! + b * r[7]!, a * r[row + 2]! + b * r[8]!, true);
          rows.emit(a * across - camera.image[i * 2 + axis]! / sigmaPx, weight, 'huber', IMAGE_HUBER);
        }
      }
    }
  }
}
