/** Straight limbs and hanging arms: what a body does unless something shows otherwise. Cauchy losses let go soon. */
import {
  HANGING, HANGING_CAUCHY, HANGING_SIGMA, STRAIGHT_CAUCHY, STRAIGHT_ELBOW, STRAIGHT_ELBOW_SIGMA, STRAIGHT_KNEE,
  STRAIGHT_KNEE_SIGMA, TIP,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_COUNT, LIMB_COUNT, SPINE_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { unitGradient } from './unitVector.ts';

/** Rows (|d₂ - d₁| - θ₀)/σ for the four limbs, Cauchy .35. */
export function straightRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions: d } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = problem.evidence[t]!;
    if (evidence === 0) continue;
    for (let limb = 0; limb < LIMB_COUNT; limb++) {
      const bone = limb * 2;
      const i = (t * BONE_COUNT + bone) * 3;
      const x = d[i + 3]! - d[i]!;
      const y = d[i + 4]! - d[i + 1]!;
      const z = d[i + 5]! - d[i + 2]!;
      const bend = Math.sqrt(x * x + y * y + z * z + TIP * TIP);
      const isArm = limb < 2;
      const sigma = isArm ? STRAIGHT_ELBOW_SIGMA : STRAIGHT_KNEE_SIGMA;
      const by = 1 / (bend * sigma);
      rows.open(t);
      rows.direction(t, bone, -x * by, -y * by, -z * by);
      rows.direction(t, bone + 1, x * by, y * by, z * by);
      rows.emit((bend - (isArm ? STRAIGHT_ELBOW : STRAIGHT_KNEE)) / sigma, evidence, 'cauchy', STRAIGHT_CAUCHY);
    }
  }
}

/** Rows (|d_upper arm + s/|s|| - .2)/.5 for both arms, Cauchy .3 (s/|s| points up the trunk). */
export function hangingRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions: d, free } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = problem.evidence[t]!;
    if (evidence === 0) continue;
    const s = t * 12 + SPINE_AT;
    const size = Math.hypot(free[s]!, free[s + 1]!, free[s + 2]!) || 1e-9;
    for (let bone = 0; bone <= 2; bone += 2) {
      const i = (t * BONE_COUNT + bone) * 3;
      const x = d[i]! + free[s]! / size;
      const y = d[i + 1]! + free[s + 1]! / size;
      const z = d[i + 2]! + free[s + 2]! / size;
      const off = Math.sqrt(x * x + y * y + z * z + TIP * TIP);
      const by = 1 / (off * HANGING_SIGMA);
      rows.open(t);
      rows.direction(t, bone, x * by, y * by, z * by);
      unitGradient(rows, t, SPINE_AT, free, s, x * by, y * by, z * by);
      rows.emit((off - HANGING) / HANGING_SIGMA, evidence, 'cauchy', HANGING_CAUCHY);
    }
  }
}
