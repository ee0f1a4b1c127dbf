import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { syntheticTrack } from '../../scripts/bench/syntheticTrack.ts';
import type { PlanWorkerLike } from '../../src/app/plan/askPlan.ts';
import { createPlanDesk } from '../../src/app/plan/planDesk.ts';
import type { FromPlanWorker, ToPlanWorker } from '../../src/app/plan/planProtocol.ts';
import { editSettings, startWithBook, undoBook } from '../../src/app/state/bookStore.ts';
import { askReadings, curvesOfPlan, planSettled, startPlanning } from '../../src/app/state/planning.ts';
import { editTiming } from '../../src/app/state/timingEdits.ts';
import { playhead, setPlayhead } from '../../src/app/state/playhead.ts';
import { session } from '../../src/app/state/session.ts';
import { memoryOf } from '../../src/app/worker/memoryOf.ts';
import { newBook } from '../../src/book/document.ts';
import { makePlan } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';

/** A worker that answers when it is told to, and hands its memory over as a real one does. */
class PretendWorker implements PlanWorkerLike {
  readonly sent: ToPlanWorker[] = [];
  ended = false;
  readonly #desk = createPlanDesk();
  readonly #hear = new Map<string, (event: Event) => void>();
  postMessage = (message: unknown): void => void this.sent.push(structuredClone(message) as ToPlanWorker);
  terminate = (): void => void (this.ended = true);
  addEventListener = (type: string, listener: unknown): void => void this.#hear.set(type, listener as (event: Event) => void);
  #answered = 0;
  /** Answers the next message; returns whether there was one. */
  answer(): boolean {
    const asked = this.sent[this.#answered];
    if (asked === undefined) return false;
    this.#answered += 1;
    const said: FromPlanWorker = this.#desk(asked);
    this.#hear.get('message')?.(new MessageEvent('message', { data: structuredClone(said, { transfer: memoryOf(said) }) }));
    return true;
  }
  answerAll(): void {
    while (this.answer());
  }
  die(): void {
    this.#hear.get('error')?.(new Event('error'));
  }
}

const TRACK = syntheticTrack(2, 30);
let workers: PretendWorker[] = [];
let stop: () => void = () => undefined;
const worker = (): PretendWorker => workers.at(-1)!;

beforeEach(() => {
  startWithBook(newBook());
  session.setState({ plan: null, track: null, fit: null, job: null, problem: null });
  setPlayhead({ step: 0, nudge: 0 });
  workers = [];
  stop = startPlanning(() => {
    workers.push(new PretendWorker());
    return worker();
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  stop();
});

describe('the plan from the worker', () => {
  it('is the same as one made on the spot, and its curves belong to it', () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    const plan = session.getState().plan!;
    expect(plan).toEqual(makePlan(TRACK, STANDARD_ARMATURE, DEFAULT_SETTINGS));
    const curve = curvesOfPlan(plan)?.(0);
    // Of 60 frames, all but those after the last step's row.
    expect(curve?.length).toBeGreaterThan(50);
    expect(curvesOfPlan({ ...plan })).toBeNull();
  });

  it('foresees a dragged mark at once, from the plan on the screen, until the plan for it is there', () => {
    const clock = vi.spyOn(performance, 'now').mockReturnValue(1000);
    session.setState({ track: TRACK });
    worker().answerAll();
    const { plan } = session.getState();
    expect(session.getState().foreseen).toBeNull();
    const mark = (filmS: number): void => void editTiming((timing) => ({ ...timing, marks: [{ id: 'a', sourceS: 1, filmS, locked: false, kind: 'placed', name: '' }, { id: 'z', sourceS: TRACK.timesS.at(-1)!, filmS: TRACK.timesS.at(-1)!, locked: false, kind: 'placed', name: '' }] }), { label: 'a mark' });
    mark(0.75);
    const seen = session.getState().foreseen!;
    expect(session.getState().plan).toBe(plan);
    expect(seen.sourceTimeS).not.toEqual(plan!.sourceTimeS);
    expect(curvesOfPlan(seen)?.(0).length).toBeGreaterThan(50);
    // one more while the first is under way: the first plan to come is not the one that is wanted
    mark(0.5);
    const foreseen = session.getState().foreseen!;
    worker().answer();
    expect(session.getState()).toMatchObject({ plan, foreseen });
    // it goes onto the screen with the next move, unless another one did so just now
    mark(0.6);
    expect(session.getState().plan).toBe(plan);
    clock.mockReturnValue(1251);
    mark(0.625);
    expect(session.getState().plan).not.toBe(plan);
    const wanted = session.getState().foreseen!;
    worker().answerAll();
    const made = session.getState().plan!;
    expect(session.getState().foreseen).toBeNull();
    expect(wanted.sourceTimeS).toEqual(made.sourceTimeS);
    expect(curvesOfPlan(seen)).toBeNull();
    // anything else that changes is not foreseen
    editSettings({ rate: 12 });
    expect(session.getState().foreseen).toBeNull();
    worker().answerAll();
  });

  it('sends the track once and settings from then on', () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    editSettings({ rate: 12 });
    worker().answerAll();
    expect(worker().sent.map(({ news }) => Object.keys(news).sort())).toEqual([['armature', 'body', 'poise', 'puppet', 'timing', 'track'], []]);
    expect(session.getState().plan?.rate).toBe(12);
    // The curves did not change with the rate and did not cross over again, yet they belong to the new plan.
    expect(curvesOfPlan(session.getState().plan!)?.(0).length).toBeGreaterThan(50);
  });

  it('keeps the former plan until the new one is there, and the moment of the performance', () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    setPlayhead({ step: 12, nudge: 0 });
    const former = session.getState().plan!;
    editSettings({ on: 1 });
    expect(session.getState().plan).toBe(former);
    worker().answerAll();
    expect(session.getState().plan).not.toBe(former);
    expect(playhead.getState().step).toBe(24);
  });

  it('asks for the newest of what came meanwhile, and for nothing between', () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    for (const cutoffHz of [5, 4.5, 4, 3]) editSettings({ cutoffHz });
    worker().answerAll();
    expect(worker().sent.map(({ settings }) => settings.cutoffHz)).toEqual([3.5, 5, 3]);
    expect(session.getState().plan?.usedCutoffHz).toBe(3);
  });

  it('shows nothing of a take that has gone', () => {
    session.setState({ track: TRACK });
    session.setState({ track: null });
    worker().answerAll();
    expect(session.getState().plan).toBeNull();
    // Another take asked for while the first is under way: the first never shows.
    session.setState({ track: TRACK });
    session.setState({ track: syntheticTrack(1, 30) });
    worker().answer();
    expect(session.getState().plan).toBeNull();
    worker().answerAll();
    expect(session.getState().plan?.stepCount).toBe(12);
  });

  it('says why it could not be made, and keeps the former one', () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    const former = session.getState().plan;
    const console = vi.spyOn(globalThis.console, 'error').mockReturnValue(undefined);
    editSettings({ inS: 1.5, outS: 1 });
    worker().answerAll();
    expect(session.getState().problem?.code).toBe('bad-settings');
    expect(session.getState().plan).toBe(former);
    undoBook();
    worker().answerAll();
    expect(session.getState().plan).toEqual(former);
    console.mockRestore();
  });

  it('is made by a new worker when one dies', () => {
    session.setState({ track: TRACK });
    const console = vi.spyOn(globalThis.console, 'error').mockReturnValue(undefined);
    worker().die();
    expect(session.getState().problem?.code).toBe('internal');
    expect(workers[0]?.ended).toBe(true);
    editSettings({ rate: 12 });
    expect(workers).toHaveLength(2);
    worker().answerAll();
    expect(session.getState().plan?.rate).toBe(12);
    console.mockRestore();
  });

  it('is waited for by whoever saves it', async () => {
    await planSettled();
    session.setState({ track: TRACK });
    let settled = false;
    const waited = planSettled().then(() => void (settled = true));
    await Promise.resolve();
    expect(settled).toBe(false);
    editSettings({ rate: 12 });
    worker().answerAll();
    await waited;
    expect(session.getState().plan?.rate).toBe(12);
  });
});

describe('the memory of a result', () => {
  it('is found once, at any depth', () => {
    const shared = new Float64Array(4);
    const found = memoryOf({ a: shared, b: shared.subarray(1), c: [{ d: new Uint8Array(2) }], e: null, f: 'text' });
    expect(found.map((buffer) => buffer.byteLength)).toEqual([32, 2]);
  });
});

describe('readouts from the worker of the plan', () => {
  it('wait for the plan that is under way, and are those of its steps; without a take there are none', async () => {
    expect(await askReadings('leftElbow')).toBeNull();
    session.setState({ track: TRACK });
    const asked = askReadings('leftElbow');
    expect(worker().sent).toHaveLength(1);
    worker().answerAll();
    const readings = await asked;
    expect(readings!.readings.map(({ id }) => id)).toEqual(['leftElbow.flexion']);
    expect(readings!.readings[0]!.deg).toHaveLength(session.getState().plan!.stepCount);
    // nothing but the question crosses over
    expect(Object.keys(worker().sent[1]!.news)).toEqual([]);
  });

  it('are refused with the reason when the worker dies', async () => {
    session.setState({ track: TRACK });
    worker().answerAll();
    const asked = askReadings('leftElbow');
    worker().die();
    await expect(asked).rejects.toThrow(/ended by itself/);
  });
});
