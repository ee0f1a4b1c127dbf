/** The page's end of writing a file: a worker of its own, ended with it. */
import { fromErrorData, NudgebookError } from '../../errors.ts';
import type { FromSaveWorker, ToSaveWorker } from './saveProtocol.ts';

/** The part of a Worker that is used, so that a test can stand in for it. */
export type SaveWorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>;

function makeSaveWorker(): SaveWorkerLike {
  return new Worker(new URL('./save.worker.ts', import.meta.url), { type: 'module', name: 'file' });
}

/**
 * Writes a file in a worker.
 *
 * @param makeWorker given only by tests
 * @throws NudgebookError as the writer of that file says; `internal` when the worker dies
 */
export function writeFile(asked: ToSaveWorker, makeWorker: () => SaveWorkerLike = makeSaveWorker): Promise<Blob> {
  return new Promise((resolve, reject) => {
    const worker = makeWorker();
    const end = (tell: () => void): void => {
      worker.terminate();
      tell();
    };
    worker.addEventListener('message', (event) => {
      const said = (event as MessageEvent<FromSaveWorker>).data;
      end(() => (said.kind === 'written' ? resolve(said.file) : reject(fromErrorData(said.error))));
    });
    worker.addEventListener('error', (event) => {
      // Told through the promise; it must not surface a second time as an error of the page.
      event.preventDefault();
      end(() => reject(died((event as ErrorEvent).message)));
    });
    worker.addEventListener('messageerror', () => end(() => reject(died('a message could not be read'))));
    worker.postMessage(asked);
  });
}

function died(why: string): NudgebookError {
  return new NudgebookError('internal', `Writing the file ended by itself${why === '' ? '' : `: ${why}`}.`, 'Try to save it once more; the book is kept.');
}
