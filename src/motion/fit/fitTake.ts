/**
 * The fit on the performer's own clock: what moves smoothly is the performer, not the container of a slow-motion clip.
 */
import type { Track } from '../../pose/track.ts';
import { NO_CORRECTIONS, type Corrections } from '../corrections/corrections.ts';
import { fitBody, type FitHooks, type FitOptions } from './fitBody.ts';
import type { FittedBody } from './fittedBody.ts';

const RAD_PER_DEG = Math.PI / 180;

/**
 * Fits the figure to a take.
 *
 * @param captureFactor how many times faster than its stored rate the clip was shot
 * @param corrections what a person set by hand, in the container's times
 * @returns as {@link fitBody}, but with the container's times
 * @throws NudgebookError `no-person` where no frame has anybody
 */
export function fitTake(track: Track, captureFactor: number, corrections: Corrections = NO_CORRECTIONS, hooks: FitHooks = {}): FittedBody {
  const performer: Track = { ...track, timesS: track.timesS.map((timeS) => timeS / captureFactor) };
  return { ...fitBody(performer, cameraOptions(corrections), hooks), timesS: track.timesS, corrections };
}

function cameraOptions({ camera }: Corrections): FitOptions {
  return {
    ...(camera.pitchDeg === null ? {} : { pitchRad: camera.pitchDeg * RAD_PER_DEG }),
    ...(camera.rollDeg === null ? {} : { rollRad: camera.rollDeg * RAD_PER_DEG }),
    ...(camera.verticalFovDeg === null ? {} : { verticalFovDeg: camera.verticalFovDeg }),
  };
}
