/** The worker's side of the body fit as a plain function, so that it runs in tests and in the worker alike. */
import { toErrorData } from '../../errors.ts';
import { createFitter } from '../../motion/fit/fitTake.ts';
import type { Track } from '../../pose/track.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

/**
 * A fitter with the track that was sent to it last.
 *
 * What it returns are copies: their memory is handed over to the page, while the fitter goes on from its own at the next correction.
 */
export function createFitDesk(onProgress: (fraction: number) => void): (asked: ToFitWorker) => FromFitWorker {
  const fitter = createFitter();
  let kept: Track | null = null;
  return ({ track, captureFactor, corrections }) => {
    try {
      kept = track ?? kept;
      if (kept === null) throw new Error('the fit was asked for corrections of a track that was never sent');
      return { kind: 'fitted', body: structuredClone(fitter.fit(kept, captureFactor, corrections, { onProgress })) };
    } catch (thrown) {
      return { kind: 'failed', error: toErrorData(thrown) };
    }
  };
}
