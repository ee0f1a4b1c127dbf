/**
 * The fit on the performer's own clock: what moves smoothly is the performer, not the container of a slow-motion clip.
 */
import type { Track } from '../../pose/track.ts';
import { fitBody, type FitHooks } from './fitBody.ts';
import type { FittedBody } from './fittedBody.ts';

/**
 * Fits the figure to a take.
 *
 * @param captureFactor how many times faster than its stored rate the clip was shot
 * @returns as {@link fitBody}, but with the container's times
 * @throws NudgebookError `no-person` where no frame has anybody
 */
export function fitTake(track: Track, captureFactor: number, hooks: FitHooks = {}): FittedBody {
  const performer: Track = { ...track, timesS: track.timesS.map((timeS) => timeS / captureFactor) };
  return { ...fitBody(performer, {}, hooks), timesS: track.timesS };
}
