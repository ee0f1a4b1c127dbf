/** Lengths: slack of the bones, and the trunk's vectors about their lengths. */
import { HIP_SIGMA_M, SLACK_SIGMA, TRUNK_SIGMA_M } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_COUNT, HIP_AT, SHOULDER_AT, SPINE_AT, TRUNK_LENGTH_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

const TRUNK = [
  { at: HIP_AT, sigma: HIP_SIGMA_M },
  { at: SPINE_AT, sigma: TRUNK_SIGMA_M },
  { at: SHOULDER_AT, sigma: TRUNK_SIGMA_M },
];
/** Evidence that stands in for a frame in which nobody was found, so that its lengths are still held. */
const LEAST_EVIDENCE = 0.01;

/** Rows e/.08 for each bone's slack, and (|v| - L)/σ for hip half-axis, spine and shoulder half-axis. */
export function lengthRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { free, slack, globals } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = Math.max(LEAST_EVIDENCE, problem.evidence[t]!);
    for (let b = 0; b < BONE_COUNT; b++) {
      rows.open(t);
      rows.slack(b, 1 / SLACK_SIGMA);
      rows.emit(slack[t * BONE_COUNT + b]! / SLACK_SIGMA, evidence);
    }
    for (let k = 0; k < TRUNK.length; k++) {
      const { at, sigma } = TRUNK[k]!;
      const i = t * 12 + at;
      const x = free[i]!;
      const y = free[i + 1]!;
      const z = free[i + 2]!;
      const size = Math.sqrt(x * x + y * y + z * z) || 1e-9;
      const by = 1 / (size * sigma);
      rows.open(t);
      rows.vector(t, at, x * by, y * by, z * by);
      rows.global(TRUNK_LENGTH_AT + k, -1 / sigma);
      rows.emit((size - globals[TRUNK_LENGTH_AT + k]!) / sigma, evidence);
    }
  }
}
