/** When the body is fitted, what gives way to what, and what the plan is made from meanwhile. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { FromFitWorker, ToFitWorker } from '../../src/app/fit/fitProtocol.ts';
import { bodyFor, canFit, startFitting } from '../../src/app/fit/fitting.ts';
import { createFitRunner, type FitRequest, type FitWorkerLike } from '../../src/app/fit/runFit.ts';
import { editBook, editSettings, startWithBook, undoBook } from '../../src/app/state/bookStore.ts';
import { canRun } from '../../src/app/state/commands.ts';
import { cameraWords } from '../../src/app/screens/take/cameraWords.ts';
import { session } from '../../src/app/state/session.ts';
import { newBook } from '../../src/book/document.ts';
import { NudgebookError } from '../../src/errors.ts';
import { NO_CORRECTIONS } from '../../src/motion/corrections/corrections.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import type { Track } from '../../src/pose/track.ts';
import { samplePlan } from '../charts/samplePlan.ts';

/** Only their identity matters here. */
const newTrack = (): Track => ({}) as Track;
const newBody = (): FittedBody => ({}) as FittedBody;

interface Asked extends FitRequest {
  readonly finish: (body: FittedBody) => void;
  readonly fail: (why: Error) => void;
}

let asked: Asked[] = [];
let stop = (): void => undefined;

const pretend = (request: FitRequest): Promise<FittedBody> =>
  new Promise((finish, fail) => {
    request.signal.addEventListener('abort', () => fail(new NudgebookError('cancelled', 'cancelled', '')));
    asked.push({ ...request, finish, fail });
  });

/** Lets what was promised come about. */
const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

beforeEach(() => {
  asked = [];
  startWithBook(newBook());
  session.setState({ track: null, fit: null, plan: samplePlan(), footage: null, job: null, problem: null });
  stop = startFitting(pretend);
});
afterEach(() => stop());

describe('fitting the body', () => {
  it('begins with a finished track and gives the plan its body', async () => {
    const track = newTrack();
    session.setState({ track });
    expect(asked).toHaveLength(1);
    expect(asked[0]).toMatchObject({ captureFactor: 1 });
    expect(session.getState().job).toMatchObject({ kind: 'fitting' });
    expect(canRun('saveIncrements')).toBe(false);
    expect(bodyFor(track, 1)).toBeNull();
    const body = newBody();
    asked[0]?.finish(body);
    await settle();
    expect(session.getState().job).toBeNull();
    expect(bodyFor(track, 1)).toBe(body);
    expect(bodyFor(track, 2)).toBeNull();
    expect(bodyFor(newTrack(), 1)).toBeNull();
    expect(canRun('saveIncrements')).toBe(true);
    expect(canFit()).toBe(false);
  });

  it('leaves a track that still grows alone', () => {
    const job = { kind: 'posing', name: 'jar', model: 'full', done: 1, total: 9, framesPerS: 1, remainingS: 8, abort: new AbortController() } as const;
    session.setState({ job });
    session.setState({ track: newTrack() });
    expect(asked).toHaveLength(0);
    expect(session.getState().job).toBe(job);
    session.setState({ job: null });
    expect(asked).toHaveLength(1);
  });

  it('begins anew at another speed, and knows the former fit again', async () => {
    const track = newTrack();
    session.setState({ track });
    const body = newBody();
    asked[0]?.finish(body);
    await settle();
    editSettings({ captureFactor: 8 });
    expect(session.getState().fit).toBeNull();
    expect(asked.map((a) => a.captureFactor)).toEqual([1, 8]);
    undoBook();
    expect(asked[1]?.signal.aborted).toBe(true);
    expect(bodyFor(track, 1)).toBe(body);
    await settle();
    expect(asked).toHaveLength(2);
    expect(session.getState().job).toBeNull();
  });

  it('does nothing at any other setting', async () => {
    session.setState({ track: newTrack() });
    asked[0]?.finish(newBody());
    await settle();
    editSettings({ rate: 12 });
    expect(asked).toHaveLength(1);
    expect(session.getState().fit).not.toBeNull();
  });

  it('begins anew with a correction and keeps the body before until then; undone, it knows the former fit again', async () => {
    const track = newTrack();
    session.setState({ track });
    const body = newBody();
    asked[0]?.finish(body);
    await settle();
    editBook((book) => ({ ...book, corrections: { ...book.corrections, angles: [{ timeS: 1, joint: 'leftElbow', angleDeg: 30 }] } }));
    expect(asked[1]?.corrections.angles).toHaveLength(1);
    // Another one while it runs waits for it, for it will be worked into it.
    editBook((book) => ({ ...book, corrections: { ...book.corrections, angles: [{ timeS: 1, joint: 'leftElbow', angleDeg: 31 }] } }));
    expect(asked).toHaveLength(2);
    expect(asked[1]?.signal.aborted).toBe(false);
    undoBook();
    expect(bodyFor(track, 1)).toBe(body);
    const corrected = newBody();
    asked[1]?.finish(corrected);
    await settle();
    expect(bodyFor(track, 1)).toBe(corrected);
    undoBook();
    expect(asked[2]?.corrections).toBe(NO_CORRECTIONS);
  });

  it('gives way to a clip that is opened, and comes back when that came to nothing', async () => {
    session.setState({ track: newTrack() });
    const opening = { kind: 'opening', name: 'recipe.mp4', abort: new AbortController() } as const;
    session.setState({ job: opening });
    expect(asked[0]?.signal.aborted).toBe(true);
    await settle();
    expect(session.getState().job).toBe(opening);
    session.setState({ job: null });
    expect(asked).toHaveLength(2);
  });

  it('is begun for the new track when one comes, and the old result is not taken', async () => {
    const [first, second] = [newTrack(), newTrack()];
    session.setState({ track: first });
    session.setState({ track: second });
    asked[0]?.finish(newBody());
    await settle();
    expect(asked[0]?.signal.aborted).toBe(true);
    expect(asked[1]?.track).toBe(second);
    expect(session.getState().fit).toBeNull();
    session.setState({ track: null });
    expect(asked[1]?.signal.aborted).toBe(true);
    expect(session.getState().job).toBeNull();
  });

  it('stays cancelled until it is asked for', async () => {
    session.setState({ track: newTrack() });
    session.getState().job?.abort.abort();
    await settle();
    expect(session.getState()).toMatchObject({ job: null, fit: null, problem: null });
    editSettings({ rate: 12 });
    expect(asked).toHaveLength(1);
    expect(canRun('fitBody')).toBe(true);
    // Another speed is another question.
    editSettings({ captureFactor: 2 });
    expect(asked).toHaveLength(2);
  });

  it('says why it failed and does not begin again by itself', async () => {
    session.setState({ track: newTrack() });
    const console = vi.spyOn(globalThis.console, 'error').mockReturnValue(undefined);
    asked[0]?.fail(new NudgebookError('no-person', 'Nobody was found.', 'Film again.'));
    await settle();
    expect(session.getState().problem?.code).toBe('no-person');
    expect(console).toHaveBeenCalledOnce();
    console.mockRestore();
    expect(asked).toHaveLength(1);
    expect(canFit()).toBe(true);
  });
});

describe('a fit in its worker', () => {
  class PretendWorker implements FitWorkerLike {
    readonly sent: ToFitWorker[] = [];
    ended = 0;
    readonly #hear = new Map<string, (event: Event) => void>();
    postMessage = (message: unknown): void => void this.sent.push(message as ToFitWorker);
    terminate = (): void => void (this.ended += 1);
    addEventListener = (type: string, listener: unknown): void => void this.#hear.set(type, listener as (event: Event) => void);
    say(data: FromFitWorker): void {
      this.#hear.get('message')?.(new MessageEvent('message', { data }));
    }
    die(): void {
      this.#hear.get('error')?.(new Event('error'));
    }
  }
  const begin = (): { worker: PretendWorker; abort: AbortController; told: number[]; result: Promise<FittedBody> } => {
    const worker = new PretendWorker();
    const abort = new AbortController();
    const told: number[] = [];
    const result = createFitRunner(() => worker)({ track: newTrack(), captureFactor: 2, corrections: NO_CORRECTIONS, signal: abort.signal, onProgress: (f) => told.push(f) });
    return { worker, abort, told, result };
  };

  it('tells its progress, gives its body and stays', async () => {
    const { worker, told, result } = begin();
    expect(worker.sent[0]?.captureFactor).toBe(2);
    worker.say({ kind: 'progress', fraction: 0.4 });
    const body = newBody();
    worker.say({ kind: 'fitted', body });
    expect(await result).toBe(body);
    expect(told).toEqual([0.4]);
    expect(worker.ended).toBe(0);
  });

  it('is sent a track once, and ended where another fit is asked for meanwhile', async () => {
    const workers: PretendWorker[] = [];
    const run = createFitRunner(() => {
      const worker = new PretendWorker();
      workers.push(worker);
      return worker;
    });
    const [track, other] = [newTrack(), newTrack()];
    const ask = (of: Track): Promise<FittedBody> => run({ track: of, captureFactor: 1, corrections: NO_CORRECTIONS, signal: new AbortController().signal, onProgress: () => undefined });
    for (const of of [track, track, other]) {
      const result = ask(of);
      workers[0]?.say({ kind: 'fitted', body: newBody() });
      await result;
    }
    expect(workers[0]?.sent.map((sent) => sent.track)).toEqual([track, null, other]);
    const given = ask(other);
    const next = ask(track);
    await expect(given).rejects.toMatchObject({ code: 'cancelled' });
    expect(workers[0]?.ended).toBe(1);
    expect(workers[1]?.sent.map((sent) => sent.track)).toEqual([track]);
    workers[1]?.say({ kind: 'fitted', body: newBody() });
    await next;
  });

  it('is ended at once when it is cancelled', async () => {
    const { worker, abort, told, result } = begin();
    abort.abort();
    worker.say({ kind: 'progress', fraction: 0.4 });
    await expect(result).rejects.toMatchObject({ code: 'cancelled' });
    expect(worker.ended).toBe(1);
    expect(told).toEqual([]);
  });

  it('passes on why it failed, and does not hang when it dies', async () => {
    const refused = begin();
    refused.worker.say({ kind: 'failed', error: { code: 'no-person', sentence: 'Nobody was found.', tip: 'Film again.' } });
    await expect(refused.result).rejects.toMatchObject({ code: 'no-person' });
    const dead = begin();
    dead.worker.die();
    await expect(dead.result).rejects.toMatchObject({ code: 'internal' });
  });
});

describe('the camera in words', () => {
  const deg = Math.PI / 180;
  it('says which way it looks and how far it is turned', () => {
    const given = { pitch: false, roll: false, fov: false };
    expect(cameraWords({ pitchRad: 3 * deg, rollRad: 0, given: { ...given, pitch: true } })).toBe('looks down by 3.0°, given; not turned, estimated');
    expect(cameraWords({ pitchRad: 3 * deg, rollRad: 0, given: { ...given, roll: true } })).toBe('looks down by 3.0°, estimated; not turned, given');
    expect(cameraWords({ pitchRad: 3 * deg, rollRad: 0, given: { pitch: true, roll: true, fov: false } })).toBe('looks down by 3.0°, not turned, given');
    expect(cameraWords({ given, pitchRad: 3.14 * deg, rollRad: -0.42 * deg })).toBe('looks down by 3.1°, turned 0.4°, estimated');
    expect(cameraWords({ given, pitchRad: -2 * deg, rollRad: 0 })).toBe('looks up by 2.0°, not turned, estimated');
    expect(cameraWords({ given, pitchRad: 0.01 * deg, rollRad: 0 })).toBe('looks straight ahead, not turned, estimated');
  });
});
