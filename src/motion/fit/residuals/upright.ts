/** Trunk upright in depth, and hips not far twisted against shoulders. Both let go under a Cauchy loss. */
import { TWIST_CAUCHY, TWIST_SIGMA, UPRIGHT_CAUCHY, UPRIGHT_SIGMA } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { gravityOf } from '../gravity.ts';
import { HIP_AT, PITCH_AT, ROLL_AT, SHOULDER_AT, SPINE_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { unitGradient } from './unitVector.ts';

/** Row (s/|s|)·away / .25, Cauchy 1: lean along the view, which the picture hardly shows. */
export function uprightRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { free, globals } = figure;
  const g = gravityOf(globals[PITCH_AT]!, globals[ROLL_AT]!);
  const by = 1 / UPRIGHT_SIGMA;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = problem.evidence[t]!;
    if (evidence === 0) continue;
    const i = t * 12 + SPINE_AT;
    const size = Math.hypot(free[i]!, free[i + 1]!, free[i + 2]!) || 1e-9;
    const along = (v: readonly [number, number, number]): number => (by * (free[i]! * v[0] + free[i + 1]! * v[1] + free[i + 2]! * v[2])) / size;
    rows.open(t);
    unitGradient(rows, t, SPINE_AT, free, i, by * g.away[0], by * g.away[1], by * g.away[2]);
    rows.global(PITCH_AT, along(g.awayByPitch));
    rows.global(ROLL_AT, along(g.awayByRoll));
    rows.emit(along(g.away), evidence, 'cauchy', UPRIGHT_CAUCHY);
  }
}

/** Row (a/|a|)·(h/|h| × s/|s|) / .35, Cauchy 1.5: the sine of the twist of shoulders against hips. */
export function twistRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { free } = figure;
  const by = 1 / TWIST_SIGMA;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = problem.evidence[t]!;
    if (evidence === 0) continue;
    const h = t * 12 + HIP_AT;
    const s = t * 12 + SPINE_AT;
    const a = t * 12 + SHOULDER_AT;
    const scale = (i: number): number => 1 / (Math.hypot(free[i]!, free[i + 1]!, free[i + 2]!) || 1e-9);
    const kh = scale(h);
    const ks = scale(s);
    const ka = scale(a);
    const cross = (i: number, j: number, k: number): [number, number, number] => [
      k * (free[i + 1]! * free[j + 2]! - free[i + 2]! * free[j + 1]!),
      k * (free[i + 2]! * free[j]! - free[i]! * free[j + 2]!),
      k * (free[i]! * free[j + 1]! - free[i + 1]! * free[j]!),
    ];
    const byShoulder = cross(h, s, kh * ks * by);
    const byHip = cross(s, a, ks * ka * by);
    const bySpine = cross(a, h, ka * kh * by);
    rows.open(t);
    unitGradient(rows, t, SHOULDER_AT, free, a, ...byShoulder);
    unitGradient(rows, t, HIP_AT, free, h, ...byHip);
    unitGradient(rows, t, SPINE_AT, free, s, ...bySpine);
    const sine = ka * (free[a]! * byShoulder[0] + free[a + 1]! * byShoulder[1] + free[a + 2]! * byShoulder[2]);
    rows.emit(sine, evidence, 'cauchy', TWIST_CAUCHY);
  }
}
