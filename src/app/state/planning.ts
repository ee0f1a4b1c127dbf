/**
 * Keeps the plan true: whenever the track, the body fitted to it or a setting changes it is made again at once, from the planner's kept stages.
 */
import { angleCurves, type AngleCurves } from './angleCurves.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import { createPlanner } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import type { Track } from '../../pose/track.ts';
import type { Armature } from '../../puppet/armature.ts';
import { STANDARD_ARMATURE } from '../../puppet/standard.ts';
import { bodyFor } from '../fit/fitting.ts';
import { bookStore, currentBook } from './bookStore.ts';
import { playhead, repaintPlayhead, setPlayhead } from './playhead.ts';
import { showProblem } from './problems.ts';
import { session } from './session.ts';

const planner = createPlanner();

interface MadeFrom {
  readonly track: Track | null;
  readonly body: FittedBody | null;
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
let planned: {
  readonly plan: Plan;
  readonly track: Track;
  readonly body: FittedBody | null;
  readonly settings: PlanSettings;
  readonly armature: Armature;
} | null = null;

/** The angles between the steps of a plan that is on the screen; `null` for any other. */
export function curvesOfPlan(plan: Plan): AngleCurves | null {
  if (planned === null || planned.plan !== plan) return null;
  return angleCurves(planner.motion(planned.track, planned.settings, planned.body), planned.armature, plan);
}

function whatIsThere(): MadeFrom {
  const { track } = session.getState();
  const { settings, armature } = currentBook();
  return { track, body: track === null ? null : bodyFor(track, settings.captureFactor), settings, armature };
}

/** Makes the plan from what is there now; returns what it was made from. */
function makeNow(): MadeFrom {
  const { plan: former } = session.getState();
  const from = whatIsThere();
  const { track, body, settings, armature } = from;
  if (track === null) {
    session.setState({ plan: null });
    return from;
  }
  try {
    const started = performance.now();
    const plan = planner.plan(track, armature ?? STANDARD_ARMATURE, settings, body);
    planned = { plan, track, body, settings, armature: armature ?? STANDARD_ARMATURE };
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
    const now = whatIsThere();
    if (made.track === now.track && made.body === now.body && made.settings === now.settings && made.armature === now.armature) return;
    // Written before the plan is made: making it sets state, which comes back here.
    made = now;
    made = makeNow();
  };
  const stops = [session.subscribe(look), bookStore.subscribe(look)];
  return () => stops.forEach((stop) => stop());
}
