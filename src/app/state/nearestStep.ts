import type { Plan } from '../../plan/plan.ts';

/** Step (index) of a plan whose source time lies nearest to a time; the source times rise. */
export function nearestStep(plan: Pick<Plan, 'sourceTimeS' | 'stepCount'>, timeS: number): number {
  let low = 0;
  let high = plan.stepCount - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((plan.sourceTimeS[middle] ?? 0) < timeS) low = middle + 1;
    else high = middle;
  }
  const before = low - 1;
  if (before >= 0 && timeS - (plan.sourceTimeS[before] ?? 0) <= (plan.sourceTimeS[low] ?? 0) - timeS) return before;
  return Math.max(0, low);
}
