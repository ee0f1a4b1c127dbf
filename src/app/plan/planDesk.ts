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
  return ({ number, settings, news, ask, read }) => {
    sources = {
      ...sources, ...news,
      ...(news.puppet === undefined ? {} : { puppet: partsKept(sources.puppet, news.puppet) }),
      ...(news.timing === undefined ? {} : { timing: partsKept(sources.timing, news.timing) }),
      ...(news.poise === undefined ? {} : { poise: partsKept(sources.poise, news.poise) }),
    };
    const { track, body = null, armature } = sources;
    try {
      if (track === undefined || armature === undefined) throw new Error('the plan was asked for without a track');
      if (ask !== undefined) return { kind: 'corrected', number, result: structuredClone(planner.correct(track, armature, settings, ask, sources)) };
      if (read !== undefined) return { kind: 'read', number, readings: planner.readings(track, armature, settings, read, sources) };
      const plan = planner.plan(track, armature, settings, sources);
      const frames = planner.frameAngles(track, armature, settings, sources);
      const answer: FromPlanWorker = {
        kind: 'planned', number, plan: structuredClone(plan), frames: frames === sent ? null : structuredClone(frames),
        cutoff: planner.suggestCutoff(track, settings, body),
      };
      sent = frames;
      return answer;
    } catch (thrown) {
      return { kind: 'failed', number, error: toErrorData(thrown) };
    }
  };
}

/**
 * The new settings with every part that says the same as before as the very object it was: what crosses over to the worker is
 * always a copy, and the planner's stages look at identity. A change of a reading then costs no new poses.
 */
function partsKept<T extends object>(former: T | undefined, next: T): T {
  if (former === undefined) return next;
  const same = (Object.keys(next) as (keyof T)[]).filter((key) => JSON.stringify(former[key]) === JSON.stringify(next[key]));
  return { ...next, ...Object.fromEntries(same.map((key) => [key, former[key]])) };
}
