/** The worker of the body fit: seconds of arithmetic for a long take, away from the page. */
import { toErrorData } from '../../errors.ts';
import { workerPort } from '../../footage/workerPort.ts';
import { createFitter } from '../../motion/fit/fitTake.ts';
import type { Track } from '../../pose/track.ts';
import { memoryOf } from '../worker/memoryOf.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

const port = workerPort<ToFitWorker, FromFitWorker>();

const fitter = createFitter();
let kept: Track | null = null;

port.onMessage(({ track, captureFactor, corrections }) => {
  try {
    kept = track ?? kept;
    if (kept === null) throw new Error('the fit was asked for corrections of a track that was never sent');
    const body = fitter.fit(kept, captureFactor, corrections, { onProgress: (fraction) => port.post({ kind: 'progress', fraction }) });
    // A copy: what is handed over is gone here, and the fitter goes on from its own.
    const copy = structuredClone(body);
    port.post({ kind: 'fitted', body: copy }, memoryOf(copy));
  } catch (thrown) {
    port.post({ kind: 'failed', error: toErrorData(thrown) });
  }
});
