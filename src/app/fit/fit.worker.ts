/** The worker of the body fit: seconds of arithmetic for a long take, away from the page. */
import { toErrorData } from '../../errors.ts';
import { workerPort } from '../../footage/workerPort.ts';
import { fitTake } from '../../motion/fit/fitTake.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

const port = workerPort<ToFitWorker, FromFitWorker>();

/** The memory of the body's series, each once: handed over, not copied. */
function memoryOf(body: FittedBody): Transferable[] {
  const found = new Set<Transferable>();
  for (const value of Object.values(body)) {
    if (ArrayBuffer.isView(value) && value.buffer instanceof ArrayBuffer) found.add(value.buffer);
  }
  return [...found];
}

port.onMessage(({ track, captureFactor, corrections }) => {
  try {
    const body = fitTake(track, captureFactor, corrections, { onProgress: (fraction) => port.post({ kind: 'progress', fraction }) });
    port.post({ kind: 'fitted', body }, memoryOf(body));
  } catch (thrown) {
    port.post({ kind: 'failed', error: toErrorData(thrown) });
  }
});
