/** The worker's side of the plan as a plain function, so that it runs in tests and in the worker alike. */
import { toErrorData } from '../../errors.ts';
import { createPlanner, type FrameAngles } from '../../plan/makePlan.ts';
import type { FromPlanWorker, PlanSources, ToPlanWorker } from './planProtocol.ts';

/**
 * A planner with the sources that were sent to it.
 *
 * What it returns are copies: their memory is handed over to the page, while the planner goes on remembering its own.
 */
export function createPlanDesk(): (asked: ToPlanWorker) => FromPlanWorker {
  const planner = createPlanner();
  let sources: Partial<PlanSources> = {};
  let sent: FrameAngles | null = null;
  return ({ number, settings, news }) => {
    sources = { ...sources, ...news };
    const { track, body = null, armature, puppet } = sources;
    try {
      if (track === undefined || armature === undefined) throw new Error('the plan was asked for without a track');
      const plan = planner.plan(track, armature, settings, body, puppet);
      const frames = planner.frameAngles(track, armature, settings, body, puppet);
      const answer: FromPlanWorker = { kind: 'planned', number, plan: structuredClone(plan), frames: frames === sent ? null : structuredClone(frames) };
      sent = frames;
      return answer;
    } catch (thrown) {
      return { kind: 'failed', number, error: toErrorData(thrown) };
    }
  };
}
