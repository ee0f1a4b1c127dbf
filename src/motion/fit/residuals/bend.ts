/**
 * Bend of the elbows as the reader tells it: for a hinge that is the very number that is wanted, so it is asked for by itself.
 * Not for knees, where it gains nothing (docs/method-fit.md).
 */
import { BEND_CAUCHY, BEND_FROM, BEND_SPAN, BEND_WIDER } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_COUNT, DEPTH_VECTORS, LIMB_COUNT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

/** Keeps the division from failing at a perfectly straight limb, where the angle has a tip and no slope. */
export const LEAST_SINE = 1e-3;

/** Sine of the angle between the unit directions at `i` and `j`. */
export function sineBetween(d: Float64Array, i: number, j: number): number {
  const x = d[i + 1]! * d[j + 2]! - d[i + 2]! * d[j + 1]!;
  const y = d[i + 2]! * d[j]! - d[i]! * d[j + 2]!;
  const z = d[i]! * d[j + 1]! - d[i + 1]! * d[j]!;
  return Math.sqrt(x * x + y * y + z * z);
}

/**
 * Rows (θ_read - θ)/(wider·σ), Cauchy 2√8, for left and right elbow. An arm that was read as nearly straight is left to the
 * prior of straight arms: what was practised on is bent more often than arms are in takes. One that is hidden is not asked.
 */
export function bendRows(problem: Problem, { directions: d }: Figure, rows: NormalEquations): void {
  for (const { read, depthWeight } of problem.cameras) {
    if (read === null) continue;
    for (let t = 0; t < problem.frames; t++) {
      const evidence = problem.evidence[t]!;
      if (evidence === 0) continue;
      for (let arm = 0; arm < 2; arm++) {
        const bone = arm * 2;
        const bend = read.bendRad[t * LIMB_COUNT + arm]!;
        const sigma = BEND_WIDER * read.bendSigmaRad[t * LIMB_COUNT + arm]!;
        const weight = evidence * depthWeight[t * DEPTH_VECTORS + bone + 1]! * Math.min(1, Math.max(0, (bend - BEND_FROM) / BEND_SPAN));
        if (weight === 0 || !Number.isFinite(sigma)) continue;
        const i = (t * BONE_COUNT + bone) * 3;
        const j = i + 3;
        const sin = sineBetween(d, i, j);
        const angle = Math.atan2(sin, d[i]! * d[j]! + d[i + 1]! * d[j + 1]! + d[i + 2]! * d[j + 2]!);
        const by = 1 / Math.max(LEAST_SINE, sin) / sigma;
        rows.open(t);
        rows.direction(t, bone, by * d[j]!, by * d[j + 1]!, by * d[j + 2]!);
        rows.direction(t, bone + 1, by * d[i]!, by * d[i + 1]!, by * d[i + 2]!);
        rows.emit((bend - angle) / sigma, weight, 'cauchy', BEND_CAUCHY);
      }
    }
  }
}
