/** The page's end of one body fit: a worker of its own, ended with it. */
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

/**
 * Fits the body to a take in a worker.
 *
 * @param makeWorker given only by tests
 * @throws NudgebookError `cancelled` when the signal says so; `no-person` and the like as `fitTake`; `internal` when the worker dies
 */
export function runFit(
  { track, captureFactor, corrections, signal, onProgress }: FitRequest, makeWorker: () => FitWorkerLike = makeFitWorker,
): Promise<FittedBody> {
  return new Promise((resolve, reject) => {
    if (signal.aborted) {
      reject(cancelled());
      return;
    }
    const worker = makeWorker();
    const stop = (): void => end(() => reject(cancelled()));
    const end = (tell: () => void): void => {
      signal.removeEventListener('abort', stop);
      worker.terminate();
      tell();
    };
    signal.addEventListener('abort', stop);
    worker.addEventListener('message', (event) => {
      const said = (event as MessageEvent<FromFitWorker>).data;
      // What was already on its way when the work was cancelled concerns nobody any more.
      if (signal.aborted) return;
      if (said.kind === 'progress') onProgress(said.fraction);
      else if (said.kind === 'fitted') end(() => resolve(said.body));
      else end(() => reject(fromErrorData(said.error)));
    });
    worker.addEventListener('error', (event) => {
      // Told through the promise; it must not surface a second time as an error of the page.
      event.preventDefault();
      end(() => reject(died((event as ErrorEvent).message)));
    });
    worker.addEventListener('messageerror', () => end(() => reject(died('a message could not be read'))));
    worker.postMessage({ track, captureFactor, corrections } satisfies ToFitWorker);
  });
}

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
