/**
 * Keeps the fitted body true to the bench: whenever a finished track lies there, or is said to be shot at another speed, the
 * body is fitted to it in a worker; the plan follows when that is done. Everything else goes before it: other work takes
 * its place at once, and afterwards the fit begins anew.
 */
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Track } from '../../pose/track.ts';
import { bookStore, currentBook } from '../state/bookStore.ts';
import { showProblem } from '../state/problems.ts';
import { type Fit, say, session } from '../state/session.ts';
import { runFit } from './runFit.ts';

/** How often the figure of progress changes. */
const TELL_EVERY_MS = 100;

interface Wanted {
  readonly track: Track;
  readonly captureFactor: number;
  readonly corrections: Corrections;
}

type Take = Pick<Wanted, 'track' | 'captureFactor'>;

function sameTake(made: Take | null, wanted: Take | null): boolean {
  return made !== null && wanted !== null && made.track === wanted.track && made.captureFactor === wanted.captureFactor;
}

function isFor(made: Wanted | null, wanted: Wanted | null): boolean {
  return sameTake(made, wanted) && made?.corrections === wanted?.corrections;
}

/** The latest fit of each track, so that an undo or a change of model and back costs none. */
const latest = new WeakMap<Track, Fit>();

/** The fit that was cancelled or failed: it is not begun again by itself. */
let givenUp: Wanted | null = null;
let running: (Wanted & { readonly abort: AbortController }) | null = null;

function wantedNow(): Wanted | null {
  const { track } = session.getState();
  const { settings, corrections } = currentBook();
  return track === null ? null : { track, captureFactor: settings.captureFactor, corrections };
}

/**
 * The body that the plan is to be made from: fitted to this very track at this very speed, or `null`. While a new correction is worked
 * in, it is the one before: the plan on the screen is nearly right, and one from the landmarks alone would not be.
 */
export function bodyFor(track: Track, captureFactor: number): FittedBody | null {
  const { fit } = session.getState();
  return fit !== null && sameTake(fit, { track, captureFactor }) ? fit.body : null;
}

/** Whether there is a finished track without its fit and nothing under way. */
export function canFit(): boolean {
  const { fit, job } = session.getState();
  const wanted = wantedNow();
  return job === null && wanted !== null && !isFor(fit, wanted);
}

/** Fits the body after all, where it was cancelled or has failed. */
export function fitAgain(): void {
  givenUp = null;
  look(runFit);
}

function look(run: typeof runFit): void {
  const wanted = wantedNow();
  const { fit } = session.getState();
  if (fit !== null && !sameTake(fit, wanted)) session.setState({ fit: null });
  // A correction made meanwhile waits for the fit it will be worked into.
  if (running !== null && (session.getState().job?.abort !== running.abort || !sameTake(running, wanted))) giveWay();
  // While anything else is under way the track may still grow, or is about to be another.
  if (wanted === null || running !== null || session.getState().job !== null) return;
  if (isFor(session.getState().fit, wanted) || isFor(givenUp, wanted)) return;
  const known = latest.get(wanted.track);
  if (known !== undefined && isFor(known, wanted)) session.setState({ fit: known });
  else void fitNow(wanted, run);
}

/** Ends the fit for something else. */
function giveWay(): void {
  const ended = running;
  running = null;
  ended?.abort.abort();
  if (session.getState().job?.abort === ended?.abort) session.setState({ job: null });
}

async function fitNow(wanted: Wanted, run: typeof runFit): Promise<void> {
  const { track, captureFactor, corrections } = wanted;
  const abort = new AbortController();
  const own = { ...wanted, abort };
  running = own;
  const started = performance.now();
  let toldAtMs = -Infinity;
  const tell = (fraction: number): void => {
    const nowMs = performance.now();
    if (running !== own || nowMs - toldAtMs < TELL_EVERY_MS) return;
    toldAtMs = nowMs;
    session.setState({ job: { kind: 'fitting', fraction, abort } });
  };
  tell(0);
  try {
    const body = await run({ track, captureFactor, corrections, signal: abort.signal, onProgress: tell });
    if (running !== own) return;
    running = null;
    performance.measure('fit', { start: started });
    const fit: Fit = { track, captureFactor, corrections, body };
    latest.set(track, fit);
    session.setState({ fit, job: null });
    say('The body is fitted; the steps are made from it now.');
  } catch (thrown) {
    // Ended for something else: neither given up nor a problem.
    if (running !== own) return;
    running = null;
    givenUp = wanted;
    session.setState({ job: null });
    if (abort.signal.aborted) say('The steps are made from the landmarks alone.');
    showProblem(thrown);
  }
}

/**
 * Starts keeping the fit; returns how to stop.
 *
 * @param run makes one fit; given only by tests
 */
export function startFitting(run: typeof runFit = runFit): () => void {
  const lookNow = (): void => look(run);
  lookNow();
  const stops = [session.subscribe(lookNow), bookStore.subscribe(lookNow)];
  return () => {
    stops.forEach((stop) => stop());
    giveWay();
    givenUp = null;
  };
}
