/**
 * Keeps the plan true: whenever the track, the body fitted to it, the armature or a setting changes, a new one is asked for
 * from the worker (`app/plan`). Until it is there, the former plan stays on the screen.
 */
import type { CorrectionAsk, CorrectionResult } from '../../balance/correct/solveCorrection.ts';
import type { JointName } from '../../motion/joints.ts';
import type { Readings } from '../../motion/readouts/readings.ts';
import { STANDARD_ARMATURE } from '../../puppet/standard.ts';
import type { CutoffSuggestion } from '../../motion/suggestCutoff.ts';
import { foreseenPlan } from '../../plan/foreseen.ts';
import type { FrameAngles } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import { stepsOf } from '../../plan/stepped.ts';
import { bodyFor } from '../fit/fitting.ts';
import { createPlanAsker, type PlanAsker, type PlanWish, type PlanWorkerLike } from '../plan/askPlan.ts';
import { angleCurves, type AngleCurves } from './angleCurves.ts';
import { bookStore, currentBook } from './bookStore.ts';
import { nearestStep } from './nearestStep.ts';
import { playhead, repaintPlayhead, setPlayhead } from './playhead.ts';
import { showProblem } from './problems.ts';
import { session } from './session.ts';

interface Made {
  readonly wish: PlanWish;
  readonly plan: Plan;
  readonly frames: FrameAngles;
  readonly cutoff: CutoffSuggestion;
}

/** The plan on the screen, what it was made of and the angles between its steps; a later wish may be under way or have been refused. */
let shown: Made | null = null;
/**
 * A plan that was overtaken before it was there, while what comes is foreseen: it goes onto the screen together with the next thing that is
 * foreseen, not in a redraw of its own, and at most so often, ms (our choice). The last one of a drag is overtaken by nothing and shown at once.
 */
let overtaken: Made | null = null;
let shownAtMs = -Infinity;
const OVERTAKEN_MS = 250;
let asker: PlanAsker | null = null;
let waiters: (() => void)[] = [];

/** The angles between the steps of a plan that is on the screen, also of one that is foreseen; `null` for any other. */
export function curvesOfPlan(plan: Plan): AngleCurves | null {
  return shown !== null && (shown.plan === plan || session.getState().foreseen === plan) ? angleCurves(shown.frames, plan) : null;
}

/** Those angles as they are, frame by frame; `null` likewise. */
export function framesOfPlan(plan: Plan): FrameAngles | null {
  return shown !== null && shown.plan === plan ? shown.frames : null;
}

/** Waits until the plan on the screen is that of the present settings, or could not be made of them. */
export function planSettled(): Promise<void> {
  if (asker?.busy() !== true) return Promise.resolve();
  return new Promise((resolve) => waiters.push(resolve));
}

/** A correction of the balance of the plan that the book asks for now. */
export async function askCorrection(ask: CorrectionAsk): Promise<CorrectionResult> {
  const wish = wishNow();
  if (wish === null || asker === null) return { kind: 'nothing', sentence: 'There is no plan to correct yet.' };
  return asker.correct(wish, ask);
}

/** The readouts of a joint of the performer at the steps that the book asks for now; `null` without a take. */
export async function askReadings(joint: JointName): Promise<Readings | null> {
  const wish = wishNow();
  return wish === null || asker === null ? null : asker.read(wish, joint);
}

/** Says on the page itself whether the plan on the screen is that of the book, for whoever drives it from outside. */
function showSettled(): void {
  if (typeof document !== 'undefined') document.documentElement.dataset['plan'] = asker?.busy() === true ? 'making' : 'made';
}

function tellWaiters(): void {
  showSettled();
  if (asker?.busy() === true) return;
  const told = waiters;
  waiters = [];
  for (const tell of told) tell();
}

function wishNow(): PlanWish | null {
  const { track } = session.getState();
  const { settings, armature, puppet, timing, poise } = currentBook();
  if (track === null) return null;
  return { track, body: bodyFor(track, settings.captureFactor), armature: armature ?? STANDARD_ARMATURE, puppet, timing, poise, settings };
}

function isSame(a: PlanWish | null, b: PlanWish | null): boolean {
  if (a === null || b === null) return a === b;
  return a.track === b.track && a.body === b.body && a.armature === b.armature && a.puppet === b.puppet && a.timing === b.timing && a.poise === b.poise && a.settings === b.settings;
}

/** What can be said of a wish at once: where it differs from the plan on the screen by marks and holds alone. */
function foresee(wish: PlanWish): Plan | null {
  if (shown === null || !isSame({ ...wish, timing: shown.wish.timing }, shown.wish)) return null;
  const { plan, frames, wish: { timing: was } } = shown;
  if (wish.timing === was || wish.timing.snapJoints !== was.snapJoints || wish.timing.alive !== was.alive) return null;
  const { bent, left } = plan.bentTime;
  const { steps } = stepsOf({ ...wish.settings, marks: wish.timing.marks, holdSpans: wish.timing.holdSpans }, frames.timesS, [...bent, ...left]);
  return foreseenPlan(plan, frames, steps);
}

/** The plan with the very list of joints of the former one where they say the same: what hangs on the list alone stays as it is. */
function withFormerJoints(plan: Plan, former: Plan | null): Plan {
  return former !== null && JSON.stringify(former.joints) === JSON.stringify(plan.joints) ? { ...plan, joints: former.joints } : plan;
}

/** After retiming, the playhead stays at the moment of the performance it was at. */
function keepPlace(former: Plan | null, plan: Plan): void {
  const { step } = playhead.getState();
  const wasAtS = former?.sourceTimeS[step];
  const next = wasAtS === undefined ? Math.min(step, plan.stepCount - 1) : nearestStep(plan, wasAtS);
  setPlayhead({ step: Math.max(0, next), nudge: former?.stepCount === plan.stepCount ? playhead.getState().nudge : 0 });
  repaintPlayhead();
}

/** Puts a plan onto the screen, with what is foreseen of a later wish. */
function show(made: Made, later: PlanWish | null): void {
  const { plan: former } = session.getState();
  const plan = withFormerJoints(made.plan, former);
  shown = { ...made, plan };
  overtaken = null;
  shownAtMs = performance.now();
  session.setState({ plan, cutoff: made.cutoff, foreseen: later === null ? null : foresee(later) });
  keepPlace(former, plan);
}

/**
 * Starts keeping the plan; returns how to stop.
 *
 * @param makeWorker given only by tests
 */
export function startPlanning(makeWorker?: () => PlanWorkerLike): () => void {
  const askedAtMs = new WeakMap<PlanWish, number>();
  let wanted: PlanWish | null = null;
  const planning = createPlanAsker({
    onPlan: (wish, plan, frames, cutoff) => {
      performance.measure('plan', { start: askedAtMs.get(wish) ?? performance.now() });
      const made = { wish, plan, frames, cutoff };
      if (wanted !== wish && session.getState().foreseen !== null) overtaken = made;
      else show(made, wanted === wish ? null : wanted);
      tellWaiters();
    },
    // The former plan stays on the screen: the strip says why the new one could not be made.
    onProblem: (_wish, thrown) => {
      session.setState({ foreseen: null });
      showProblem(thrown);
      tellWaiters();
    },
  }, makeWorker);
  asker = planning;

  const look = (): void => {
    const now = wishNow();
    if (isSame(now, wanted)) return;
    // Written first: what follows sets state, which comes back here.
    wanted = now;
    if (now === null) {
      planning.forget();
      shown = null;
      overtaken = null;
      session.setState({ plan: null, foreseen: null, cutoff: null });
      tellWaiters();
    } else {
      const startMs = performance.now();
      askedAtMs.set(now, startMs);
      planning.ask(now);
      if (overtaken?.wish.track !== now.track) overtaken = null;
      if (overtaken !== null && startMs - shownAtMs >= OVERTAKEN_MS) show(overtaken, now);
      else session.setState({ foreseen: foresee(now) });
      performance.measure('foreseen', { start: startMs });
      showSettled();
    }
  };
  look();
  const stops = [session.subscribe(look), bookStore.subscribe(look)];
  return () => {
    stops.forEach((stop) => stop());
    planning.end();
    overtaken = null;
    tellWaiters();
    asker = null;
  };
}
