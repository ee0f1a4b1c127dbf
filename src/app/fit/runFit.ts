/** The page's end of the body fit. */
import { fromErrorData, NudgebookError } from '../../errors.ts';
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Track } from '../../pose/track.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

export interface FitRequest {
  readonly track: Track;
  readonly captureFactor: number;
  readonly corrections: Corrections;
  readonly signal: AbortSignal;
  /** Share of the work done, 0..1. */
  readonly onProgress: (fraction: number) => void;
}

/** The part of a Worker that is used, so that a test can stand in for it. */
export type FitWorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>;

function makeFitWorker(): FitWorkerLike {
  return new Worker(new URL('./fit.worker.ts', import.meta.url), { type: 'module', name: 'body fit' });
}

/** A worker and the track that it holds. */
interface Desk {
  readonly worker: FitWorkerLike;
  track: Track | null;
  /** What hears the answer to the question under way. */
  hear: ((said: FromFitWorker) => void) | null;
  fail: ((why: NudgebookError) => void) | null;
}

/**
 * Makes something that fits bodies to takes in a worker, one at a time. The worker stays, so that corrections of the track it holds take a
 * moment; it is ended when a fit is cancelled or fails, or when another is asked for meanwhile.
 *
 * @param makeWorker given only by tests
 */
export function createFitRunner(makeWorker: () => FitWorkerLike = makeFitWorker): (request: FitRequest) => Promise<FittedBody> {
  let desk: Desk | null = null;

  function open(): Desk {
    const own: Desk = { worker: makeWorker(), track: null, hear: null, fail: null };
    own.worker.addEventListener('message', (event) => own.hear?.((event as MessageEvent<FromFitWorker>).data));
    own.worker.addEventListener('error', (event) => {
      // Told through the promise; it must not surface a second time as an error of the page.
      event.preventDefault();
      own.fail?.(died((event as ErrorEvent).message));
    });
    own.worker.addEventListener('messageerror', () => own.fail?.(died('a message could not be read')));
    return own;
  }

  function close(): void {
    desk?.worker.terminate();
    desk = null;
  }

  return ({ track, captureFactor, corrections, signal, onProgress }) => new Promise((resolve, reject) => {
    if (signal.aborted) {
      reject(cancelled());
      return;
    }
    desk?.fail?.(cancelled());
    const own = desk ?? open();
    desk = own;
    const stop = (): void => own.fail?.(cancelled());
    const done = (): void => {
      signal.removeEventListener('abort', stop);
      own.hear = null;
      own.fail = null;
    };
    own.fail = (why) => {
      done();
      if (desk === own) close();
      else own.worker.terminate();
      reject(why);
    };
    own.hear = (said) => {
      if (said.kind === 'progress') onProgress(said.fraction);
      else if (said.kind === 'failed') own.fail?.(fromErrorData(said.error));
      else {
        done();
        resolve(said.body);
      }
    };
    signal.addEventListener('abort', stop);
    own.worker.postMessage({ track: own.track === track ? null : track, captureFactor, corrections } satisfies ToFitWorker);
    own.track = track;
  });
}

/**
 * Fits the body to a take in the page's worker.
 *
 * @throws NudgebookError `cancelled` when the signal says so; `no-person` and the like as `fitTake`; `internal` when the worker dies
 */
export const runFit = createFitRunner();

function cancelled(): NudgebookError {
  return new NudgebookError('cancelled', 'Fitting the body was cancelled.', 'Press “Fit the body” to start it again.');
}

function died(why: string): NudgebookError {
  return new NudgebookError(
    'internal',
    `Fitting the body ended by itself${why === '' ? '' : `: ${why}`}.`,
    'The steps are made from the landmarks alone; press “Fit the body” to try again.',
  );
}
