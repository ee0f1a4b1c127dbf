/**
 * The page's end of the plan: at most one wish is with the worker and at most one waits, which is always the newest. During
 * a drag, plans therefore follow each other as fast as they can be made, and the last one is never kept waiting by more
 * than one before it.
 */
import { fromErrorData, NudgebookError } from '../../errors.ts';
import type { CorrectionAsk, CorrectionResult } from '../../balance/correct/solveCorrection.ts';
import type { JointName } from '../../motion/joints.ts';
import type { Readings } from '../../motion/readouts/readings.ts';
import type { CutoffSuggestion } from '../../motion/suggestCutoff.ts';
import type { FrameAngles } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import type { FromPlanWorker, PlanSources, ToPlanWorker } from './planProtocol.ts';

/** What a plan is wanted from. Sources are compared by identity: give a new object when the content is new. */
export interface PlanWish extends PlanSources {
  readonly settings: PlanSettings;
}

export interface PlanHearer {
  /** A plan is there. Plans come in the order in which they were asked for; those that were overtaken may be left out. */
  readonly onPlan: (wish: PlanWish, plan: Plan, frames: FrameAngles, cutoff: CutoffSuggestion) => void;
  /** The wish can't be met, and no newer one waits. */
  readonly onProblem: (wish: PlanWish, thrown: unknown) => void;
}

export interface PlanAsker {
  readonly ask: (wish: PlanWish) => void;
  /**
   * A correction of the balance, made when no plan is under way or waits.
   *
   * @returns rejected with what the worker failed of, or where it ended
   */
  readonly correct: (wish: PlanWish, ask: CorrectionAsk) => Promise<CorrectionResult>;
  /** The readouts of a joint of the performer at the steps of that plan, likewise. */
  readonly read: (wish: PlanWish, joint: JointName) => Promise<Readings>;
  /** Nothing that was asked for is wanted any more. */
  readonly forget: () => void;
  /** Whether an answer is still to come. */
  readonly busy: () => boolean;
  readonly end: () => void;
}

/** The part of a Worker that is used, so that a test can stand in for it. */
export type PlanWorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>;

function makePlanWorker(): PlanWorkerLike {
  return new Worker(new URL('./plan.worker.ts', import.meta.url), { type: 'module', name: 'plan' });
}

/** @param makeWorker given only by tests */
export function createPlanAsker(hearer: PlanHearer, makeWorker: () => PlanWorkerLike = makePlanWorker): PlanAsker {
  let worker: PlanWorkerLike | null = null;
  let known: Partial<PlanSources> = {};
  let frames: FrameAngles | null = null;
  let count = 0;
  let underWay: { readonly wish: PlanWish; readonly number: number; wanted: boolean } | null = null;
  let waiting: PlanWish | null = null;
  let errands: Errand[] = [];
  let errand: (Errand & { readonly number: number }) | null = null;

  const hear = (said: FromPlanWorker): void => {
    if (errand !== null && said.number === errand.number) {
      const met = errand;
      errand = null;
      if (said.kind === 'failed') met.reject(fromErrorData(said.error));
      else met.resolve(said);
      sendNext();
      return;
    }
    if (said.kind === 'planned') frames = said.frames ?? frames;
    const met = underWay;
    if (met === null || met.number !== said.number) return;
    underWay = null;
    const newer = waiting !== null;
    sendNext();
    if (!met.wanted) return;
    if (said.kind === 'planned' && frames !== null) hearer.onPlan(met.wish, said.plan, frames, said.cutoff);
    else if (said.kind === 'failed' && !newer) hearer.onProblem(met.wish, fromErrorData(said.error));
  };

  const begin = (): PlanWorkerLike => {
    const made = makeWorker();
    const fail = (why: string): void => {
      if (worker !== made) return;
      drop();
      const met = underWay;
      underWay = null;
      giveUp(died(why));
      const again = waiting !== null;
      // Another worker gets whatever came after; what this one died of is not asked again.
      sendNext();
      if (met?.wanted === true && !again) hearer.onProblem(met.wish, died(why));
    };
    made.addEventListener('message', (event) => worker === made && hear((event as MessageEvent<FromPlanWorker>).data));
    made.addEventListener('error', (event) => {
      // Told through the strip; it must not surface a second time as an error of the page.
      event.preventDefault();
      fail((event as ErrorEvent).message);
    });
    made.addEventListener('messageerror', () => fail('a message could not be read'));
    return made;
  };

  /** Nothing comes of what was asked for besides the plan. */
  const giveUp = (thrown: unknown): void => {
    const lost = errand === null ? errands : [errand, ...errands];
    errand = null;
    errands = [];
    for (const { reject } of lost) reject(thrown);
  };

  const drop = (): void => {
    worker?.terminate();
    worker = null;
    known = {};
    frames = null;
  };

  /** What the worker does not have yet of a wish. */
  const newsOf = ({ track, body, armature, puppet, timing, poise }: PlanWish): Partial<PlanSources> => {
    const news = {
      ...(known.track === track ? {} : { track }),
      ...(known.body === body ? {} : { body }),
      ...(known.armature === armature ? {} : { armature }),
      ...(known.puppet === puppet ? {} : { puppet }),
      ...(known.timing === timing ? {} : { timing }),
      ...(known.poise === poise ? {} : { poise }),
    };
    known = { track, body, armature, puppet, timing, poise };
    return news;
  };

  const sendNext = (): void => {
    if (underWay !== null || errand !== null) return;
    if (waiting !== null) {
      const wish = waiting;
      waiting = null;
      worker ??= begin();
      count += 1;
      underWay = { wish, number: count, wanted: true };
      worker.postMessage({ number: count, settings: wish.settings, news: newsOf(wish) } satisfies ToPlanWorker);
      return;
    }
    const next = errands.shift();
    if (next === undefined) return;
    worker ??= begin();
    count += 1;
    errand = { ...next, number: count };
    worker.postMessage({ number: count, settings: next.wish.settings, news: newsOf(next.wish), ...next.asked } satisfies ToPlanWorker);
  };

  const runErrand = <T>(wish: PlanWish, asked: Errand['asked'], of: (said: FromPlanWorker) => T | null): Promise<T> => new Promise((resolve, reject) => {
    const hearIt = (said: FromPlanWorker): void => {
      const result = of(said);
      if (result === null) reject(died('it answered something else'));
      else resolve(result);
    };
    errands.push({ wish, asked, resolve: hearIt, reject });
    sendNext();
  });

  return {
    ask: (wish) => {
      // An answer about another take would flash up in between.
      if (underWay !== null && underWay.wish.track !== wish.track) underWay.wanted = false;
      waiting = wish;
      sendNext();
    },
    correct: (wish, ask) => runErrand(wish, { ask }, (said) => (said.kind === 'corrected' ? said.result : null)),
    read: (wish, joint) => runErrand(wish, { read: joint }, (said) => (said.kind === 'read' ? said.readings : null)),
    forget: () => {
      waiting = null;
      if (underWay !== null) underWay.wanted = false;
    },
    busy: () => waiting !== null || underWay?.wanted === true,
    end: () => {
      waiting = null;
      underWay = null;
      giveUp(new NudgebookError('cancelled', 'What was asked of the plan was not done.', 'Ask for it again.'));
      drop();
    },
  };
}

/** What is asked of the worker besides plans, in turn, when no plan is under way or waits. */
interface Errand {
  readonly wish: PlanWish;
  readonly asked: Pick<ToPlanWorker, 'ask' | 'read'>;
  readonly resolve: (said: FromPlanWorker) => void;
  readonly reject: (thrown: unknown) => void;
}

function died(why: string): NudgebookError {
  return new NudgebookError(
    'internal',
    `Making the plan ended by itself${why === '' ? '' : `: ${why}`}.`,
    'The steps before stay as they are. Change any setting to have the plan made again; the book is kept.',
  );
}
