/** Bend of elbows and knees as the reader tells it: for a hinge that is the very number that is wanted, so it is asked for by itself. */
import { BEND_CAUCHY, BEND_WIDER } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_COUNT, LIMB_COUNT } from '../layout.ts';
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

/** Rows (θ_read - θ)/(wider·σ), Cauchy 2√8; a limb that is hidden was read as it was guessed, and its sigma says so. */
export function bendRows(problem: Problem, { directions: d }: Figure, rows: NormalEquations): void {
  for (const { read } of problem.cameras) {
    if (read === null) continue;
    for (let t = 0; t < problem.frames; t++) {
      const evidence = problem.evidence[t]!;
      if (evidence === 0) continue;
      for (let limb = 0; limb < LIMB_COUNT; limb++) {
        const sigma = BEND_WIDER * read.bendSigmaRad[t * LIMB_COUNT + limb]!;
        // nobody was found by this camera
        if (!(sigma > 0) || !Number.isFinite(sigma)) continue;
        const bone = limb * 2;
        const i = (t * BONE_COUNT + bone) * 3;
        const j = i + 3;
        const sin = sineBetween(d, i, j);
        const angle = Math.atan2(sin, d[i]! * d[j]! + d[i + 1]! * d[j + 1]! + d[i + 2]! * d[j + 2]!);
        const by = 1 / Math.max(LEAST_SINE, sin) / sigma;
        rows.open(t);
        rows.direction(t, bone, by * d[j]!, by * d[j + 1]!, by * d[j + 2]!);
        rows.direction(t, bone + 1, by * d[i]!, by * d[i + 1]!, by * d[i + 2]!);
        rows.emit((read.bendRad[t * LIMB_COUNT + limb]! - angle) / sigma, evidence, 'cauchy', BEND_CAUCHY);
      }
    }
  }
}
