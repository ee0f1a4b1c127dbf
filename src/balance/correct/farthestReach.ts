/** The largest margin that can be had where the wanted one can't, by halving what lies between; each is seen in the plan that it makes. */
import type { CorrectionAsk, CorrectionSources } from './correctionShapes.ts';
import type { Problem } from './problem.ts';
import type { Course } from './seekChange.ts';
import { tryCourse } from './tryCourse.ts';

/** How near the halving comes: mm, or a part of what lies between where that is more. Our choice. */
const NEAR_MM = 0.5;
const NEAR_PART = 1 / 12;
const TRIALS = 3;

/**
 * @param had a margin that is there. @param most one that can't be had. mm
 * @returns mm: so much can be had, and hardly more was found
 */
export function farthestReach(sources: CorrectionSources, ask: CorrectionAsk, problem: Problem, span: readonly number[], course: Course, had: number, most: number): number {
  let [low, high] = [had, most];
  let start: Float64Array | undefined;
  const near = Math.max(NEAR_MM, (most - had) * NEAR_PART);
  while (high - low > near) {
    const marginMm = (low + high) / 2;
    const tried = tryCourse(sources, { ...ask, marginMm }, problem, span, course, TRIALS, start);
    if (tried.kind === 'found') {
      start = tried.control;
      low = Math.max(marginMm, Math.min(...span.map((s) => tried.trial.balance.standMm[s]!)));
    } else {
      high = marginMm;
      low = Math.max(low, Math.min(high, tried.reachedMm));
    }
  }
  return low;
}
