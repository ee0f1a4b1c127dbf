/**
 * How far a number of the plan can be believed, in the three ways that every view tells apart: drawn plainly, hatched,
 * or not drawn at all.
 */
import { STATE_BRIDGED, STATE_MISSING } from '../motion/motion.ts';
import type { Plan } from '../plan/plan.ts';

export type Certainty = 'measured' | 'unsure' | 'missing';

/** Certainty of a value with that state (STATE_*) and those doubts (UNSURE_* bits of motion/trust). */
export function certaintyOf(state: number | undefined, unsure: number | undefined, value: number | undefined): Certainty {
  if (state === STATE_MISSING || value === undefined || !Number.isFinite(value)) return 'missing';
  return state === STATE_BRIDGED || (unsure ?? 0) !== 0 ? 'unsure' : 'measured';
}

/** Certainty of joint `joint` (index in `plan.joints`) at step `index` (from 0). */
export function certaintyAt(plan: Plan, index: number, joint: number): Certainty {
  const at = index * plan.joints.length + joint;
  return certaintyOf(plan.state[at], plan.unsure[at], plan.angleDeg[at]);
}

/**
 * Certainty of an increment: a turn between two steps is no better known than the worse of them, and a turn that starts
 * or ends in a gap is not known.
 */
export function incrementCertaintyAt(plan: Plan, index: number, joint: number): Certainty {
  const here = certaintyAt(plan, index, joint);
  if (!Number.isFinite(plan.incrementDeg[index * plan.joints.length + joint])) return 'missing';
  if (index === 0 || here === 'missing') return here;
  const before = certaintyAt(plan, index - 1, joint);
  if (before === 'missing') return 'missing';
  return here === 'unsure' || before === 'unsure' ? 'unsure' : 'measured';
}

export interface GapCount {
  readonly missing: number;
  readonly bridged: number;
}

/** Of the joints that this footage can show: how many are missing and how many bridged at a step. */
export function gapsAt(plan: Plan, index: number): GapCount {
  let missing = 0;
  let bridged = 0;
  const joints = plan.joints.length;
  for (let j = 0; j < joints; j += 1) {
    if (!plan.joints[j]?.observable) continue;
    const state = plan.state[index * joints + j];
    if (state === STATE_MISSING) missing += 1;
    else if (state === STATE_BRIDGED) bridged += 1;
  }
  return { missing, bridged };
}
