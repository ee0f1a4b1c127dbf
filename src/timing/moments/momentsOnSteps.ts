/** Moments of the take as they fall on the steps of the plan. */
import type { Moments, MomentsOnSteps } from './moments.ts';

/**
 * @param sourceTimeS `[N]` container time of each step, never falling
 */
export function momentsOnSteps(moments: Moments, sourceTimeS: Float64Array): MomentsOnSteps {
  void moments;
  void sourceTimeS;
  return { moves: [], pauses: [] };
}
