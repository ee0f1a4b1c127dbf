/**
 * Step residual: how far a joint moved in the picture since the frame before, against how far its landmark moved.
 *
 * The landmarks' bias is alike in neighbouring frames and falls out of the difference, so quick moves are followed at the
 * precision of the jitter and not at that of the bias. Only for frames so close that this holds.
 */
import { STEP_HUBER } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { POINT_COUNT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Observations, Problem } from '../problem.ts';
import { NEAREST_M } from './image.ts';

/** Rows (Δ(f·X/Z) - Δx)/σ_step with the constant lengths, Huber at 2, weighted by the lesser visibility of the two frames. */
export function imageStepRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  if (!problem.useSteps) return;
  for (const camera of problem.cameras) {
    for (let t = 1; t < problem.frames; t++) {
      for (let p = 0; p < POINT_COUNT; p++) {
        const i = t * POINT_COUNT + p;
        const j = i - POINT_COUNT;
        const weight = Math.min(camera.weight[i]!, camera.weight[j]!);
        if (weight === 0) continue;
        for (let axis = 0; axis < 2; axis++) {
          rows.open(t);
          const now = put(camera, figure, rows, t, p, axis, 1);
          const before = put(camera, figure, rows, t - 1, p, axis, -1);
          const moved = (camera.image[i * 2 + axis]! - camera.image[j * 2 + axis]!) / camera.stepSigmaPx;
          rows.emit(now - before - moved, weight, 'huber', STEP_HUBER);
        }
      }
    }
  }
}

function put(camera: Observations, figure: Figure, rows: NormalEquations, t: number, p: number, axis: number, sign: number): number {
  const { rotation: r, translation: c } = camera;
  const at = (t * POINT_COUNT + p) * 3;
  const x = figure.points[at]!;
  const y = figure.points[at + 1]!;
  const z = figure.points[at + 2]!;
  const row = axis * 3;
  const across = r[row]! * x + r[row + 1]! * y + r[row + 2]! * z + c[axis]!;
  const w = Math.max(NEAREST_M, r[6]! * x + r[7]! * y + r[8]! * z + c[2]!);
  const a = camera.focalPx / camera.stepSigmaPx / w;
  const b = (-a * across) / w;
  rows.point(t, p, sign * (a * r[row]! + b * r[6]!), sign * (a * r[row + 1]! + b * r[7]!), sign * (a * r[row + 2]! + b * r[8]!), false);
  return a * across;
}
