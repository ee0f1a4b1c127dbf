/** The worker of the body fit: seconds of arithmetic for a long take, away from the page. */
import { toErrorData } from '../../errors.ts';
import { workerPort } from '../../footage/workerPort.ts';
import { fitTake } from '../../motion/fit/fitTake.ts';
import { memoryOf } from '../worker/memoryOf.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

const port = workerPort<ToFitWorker, FromFitWorker>();

port.onMessage(({ track, captureFactor, corrections }) => {
  try {
    const body = fitTake(track, captureFactor, corrections, { onProgress: (fraction) => port.post({ kind: 'progress', fraction }) });
    port.post({ kind: 'fitted', body }, memoryOf(body));
  } catch (thrown) {
    port.post({ kind: 'failed', error: toErrorData(thrown) });
  }
});
