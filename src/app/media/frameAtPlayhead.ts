/**
 * Which frame of the footage belongs to the playhead, and the way back from a frame to a step.
 */
import { nearestFrame } from '../../footage/frameAt.ts';
import type { Plan } from '../../plan/plan.ts';
import type { Playhead } from '../state/playhead.ts';
import { nearestStep } from '../state/nearestStep.ts';

export interface FrameAtPlayhead {
  /** Index in `timesS`. */
  readonly frame: number;
  readonly timeS: number;
  readonly frames: number;
}

type Steps = Pick<Plan, 'sourceTimeS' | 'stepCount'>;

/** Frame that a step shows when nobody has nudged: the one nearest to the moment its pose is taken from. */
function frameOfStep(timesS: ArrayLike<number>, plan: Steps | null, step: number): number {
  const timeS = plan?.sourceTimeS[Math.max(0, Math.min(step, plan.stepCount - 1))];
  return timeS === undefined ? 0 : nearestFrame(timesS, timeS);
}

/**
 * @param timesS presentation timestamps of the footage (or of its track), seconds
 * @returns `undefined` where there are no frames
 */
export function frameAtPlayhead(timesS: ArrayLike<number>, plan: Steps | null, at: Playhead): FrameAtPlayhead | undefined {
  if (timesS.length === 0) return undefined;
  const frame = Math.max(0, Math.min(timesS.length - 1, frameOfStep(timesS, plan, at.step) + at.nudge));
  return { frame, timeS: timesS[frame] ?? 0, frames: timesS.length };
}

/** The playhead that shows a frame: at the step nearest to it, nudged by the rest. */
export function playheadAtFrame(timesS: ArrayLike<number>, plan: Steps | null, frame: number): Playhead {
  const wanted = Math.max(0, Math.min(timesS.length - 1, frame));
  const step = plan === null || plan.stepCount === 0 ? 0 : nearestStep(plan, timesS[wanted] ?? 0);
  return { step, nudge: wanted - frameOfStep(timesS, plan, step) };
}
