/**
 * Keeps the plan true: whenever the track or a setting changes it is made again at once, from the planner's kept stages.
 */
import { angleCurves, type AngleCurves } from './angleCurves.ts';
import { createPlanner } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import type { Track } from '../../pose/track.ts';
import type { Armature } from '../../puppet/armature.ts';
import { STANDARD_ARMATURE } from '../../puppet/standard.ts';
import { bookStore, currentBook } from './bookStore.ts';
import { playhead, repaintPlayhead, setPlayhead } from './playhead.ts';
import { showProblem } from './problems.ts';
import { session } from './session.ts';

const planner = createPlanner();

interface MadeFrom {
  readonly track: Track | null;
  readonly settings: PlanSettings;
  readonly armature: Armature | null;
}

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

/** What the plan on the screen was made from; a later setting may have been refused. */
let planned: { readonly plan: Plan; readonly track: Track; readonly settings: PlanSettings; readonly armature: Armature } | null = null;

/** The angles between the steps of a plan that is on the screen; `null` for any other. */
export function curvesOfPlan(plan: Plan): AngleCurves | null {
  if (planned === null || planned.plan !== plan) return null;
  return angleCurves(planner.motion(planned.track, planned.settings), planned.armature, plan);
}

/** Makes the plan from what is there now; returns what it was made from. */
function makeNow(): MadeFrom {
  const { track, plan: former } = session.getState();
  const { settings, armature } = currentBook();
  const from: MadeFrom = { track, settings, armature };
  if (track === null) {
    session.setState({ plan: null });
    return from;
  }
  try {
    const started = performance.now();
    const plan = planner.plan(track, armature ?? STANDARD_ARMATURE, settings);
    planned = { plan, track, settings, armature: armature ?? STANDARD_ARMATURE };
    performance.measure('plan', { start: started });
    session.setState({ plan });
    keepPlace(former, plan);
  } catch (thrown) {
    // The former plan stays on the screen: the strip says why the new one could not be made.
    showProblem(thrown);
  }
  return from;
}

/** After retiming, the playhead stays at the moment of the performance it was at. */
function keepPlace(former: Plan | null, plan: Plan): void {
  const { step } = playhead.getState();
  const wasAtS = former?.sourceTimeS[step];
  const next = wasAtS === undefined || former === plan ? Math.min(step, plan.stepCount - 1) : nearestStep(plan, wasAtS);
  setPlayhead({ step: Math.max(0, next), nudge: former?.stepCount === plan.stepCount ? playhead.getState().nudge : 0 });
  repaintPlayhead();
}

/** Starts keeping the plan; returns how to stop. */
export function startPlanning(): () => void {
  let made = makeNow();
  const look = (): void => {
    const { settings, armature } = currentBook();
    if (made.track === session.getState().track && made.settings === settings && made.armature === armature) return;
    // Written before the plan is made: making it sets state, which comes back here.
    made = { track: session.getState().track, settings, armature };
    made = makeNow();
  };
  const stops = [session.subscribe(look), bookStore.subscribe(look)];
  return () => stops.forEach((stop) => stop());
}
