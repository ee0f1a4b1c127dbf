/** Where the puppet can't do what is asked: runs of steps for each joint and kind of trouble, worst first. */
import type { Plan } from '../../../../plan/plan.ts';
import { FLAG_CLIPPED, FLAG_FOOT_SHORT, FLAG_LOST, FLAG_PIN_SHORT, FLAG_SPREAD } from '../../../../puppet/puppetPoses.ts';

/** Each kind with its mark for narrow places and its words. */
export const FLAG_KINDS = [
  { bit: FLAG_FOOT_SHORT, sign: '¶', words: 'foot can’t reach its place' },
  { bit: FLAG_PIN_SHORT, sign: '†', words: 'can’t reach its pin' },
  { bit: FLAG_CLIPPED, sign: '‡', words: 'cut off at its limit' },
  { bit: FLAG_LOST, sign: '~', words: 'its kind can’t make all of the turn' },
  { bit: FLAG_SPREAD, sign: '⇄', words: 'shared with a neighbour' },
] as const;

export type FlagKind = (typeof FLAG_KINDS)[number];

/** Kinds of trouble of a joint at a step; bits without words are none. */
export function flagsAt(plan: Plan, step: number, joint: number): readonly FlagKind[] {
  const bits = plan.flags[step * plan.joints.length + joint] ?? 0;
  return FLAG_KINDS.filter(({ bit }) => (bits & bit) !== 0);
}

export interface FlagRun {
  readonly joint: number;
  readonly kind: FlagKind;
  /** Steps, indices from 0, inclusive. */
  readonly first: number;
  readonly last: number;
}

export function flagRuns(plan: Plan): FlagRun[] {
  const width = plan.joints.length;
  const runs: FlagRun[] = [];
  for (const kind of FLAG_KINDS) {
    for (let joint = 0; joint < width; joint += 1) {
      let first = -1;
      for (let s = 0; s <= plan.stepCount; s += 1) {
        const on = s < plan.stepCount && ((plan.flags[s * width + joint] ?? 0) & kind.bit) !== 0;
        if (on && first < 0) first = s;
        if (!on && first >= 0) {
          runs.push({ joint, kind, first, last: s - 1 });
          first = -1;
        }
      }
    }
  }
  return runs;
}
