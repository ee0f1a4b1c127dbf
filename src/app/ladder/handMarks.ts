/** What the ladder says of each step besides the plan: which feet stand, and what was put right by hand. */
import type { ByHand, Standing } from '../../charts/ladder.ts';
import { nearestFrame } from '../../footage/frameAt.ts';
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Plan } from '../../plan/plan.ts';
import { nearestStep } from '../state/nearestStep.ts';

type Steps = Pick<Plan, 'sourceTimeS' | 'stepCount'>;

/** Which feet of the fitted body stand at a step; left and right as the plan has them. */
export function standingAt(body: FittedBody | null, mirror: boolean, plan: Steps): (index: number) => Standing {
  return (index) => {
    const timeS = plan.sourceTimeS[index];
    if (body === null || timeS === undefined) return null;
    const at = nearestFrame(body.timesS, timeS) * 2;
    const [left, right] = [body.contacts[at] === 1, body.contacts[at + 1] === 1];
    return mirror ? { left: right, right: left } : { left, right };
  };
}

/** Where something was put right: joints and angles at the step nearest to their frame, the rest over its span. */
export function byHandAt(corrections: Corrections, plan: Steps): (index: number) => ByHand {
  const marks = new Map<number, ByHand>();
  const first = plan.sourceTimeS[0] ?? 0;
  const last = plan.sourceTimeS[plan.stepCount - 1] ?? 0;
  for (const { fromS, toS } of [...corrections.depthFlips, ...corrections.swaps, ...corrections.contacts]) {
    if (toS < first || fromS > last) continue;
    for (let s = nearestStep(plan, fromS); s <= nearestStep(plan, toS); s += 1) marks.set(s, 'span');
  }
  for (const { timeS } of [...corrections.placed, ...corrections.angles]) {
    if (timeS >= first && timeS <= last) marks.set(nearestStep(plan, timeS), 'here');
  }
  return (index) => marks.get(index);
}
