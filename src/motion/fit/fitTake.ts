/**
 * The fit on the performer's own clock: what moves smoothly is the performer, not the container of a slow-motion clip.
 *
 * The fit is made once without what a person set by hand in places, and the places are then worked in where they are. So a new
 * correction costs a moment, not a fit; and the result never depends on what was there before.
 */
import type { Track } from '../../pose/track.ts';
import { applyCorrections } from '../corrections/applyCorrections.ts';
import { NO_CORRECTIONS, type Corrections } from '../corrections/corrections.ts';
import { atPerformersPace } from '../corrections/performersPace.ts';
import { fitWhole, type FitHooks, type FitOptions } from './fitBody.ts';
import type { FittedBody } from './fittedBody.ts';
import { bodyOf, withHeads, type WholeFit } from './wholeFit.ts';

const RAD_PER_DEG = Math.PI / 180;

/** Fits takes and keeps the last fit, so that the next corrections of the same take are worked into it. */
export interface Fitter {
  /**
   * Fits the figure to a take.
   *
   * @param captureFactor how many times faster than its stored rate the clip was shot
   * @param corrections what a person set by hand, in the container's times
   * @returns as {@link fitBody}, but with the container's times
   * @throws NudgebookError `no-person` where no frame has anybody
   */
  readonly fit: (track: Track, captureFactor: number, corrections?: Corrections, hooks?: FitHooks) => FittedBody;
}

/** A fitter that knows no take yet. */
export function createFitter(): Fitter {
  let kept: { readonly track: Track; readonly ground: string; readonly whole: WholeFit } | null = null;
  return {
    fit: (track, captureFactor, corrections = NO_CORRECTIONS, hooks = {}) => {
      const performer: Track = { ...track, timesS: track.timesS.map((timeS) => timeS / captureFactor) };
      const own = atPerformersPace(corrections, captureFactor);
      const ground = JSON.stringify([captureFactor, own.camera, own.swaps, own.slate]);
      if (kept?.track !== track || kept.ground !== ground) {
        const whole = withHeads(fitWhole(performer, cameraOptions(own), hooks));
        // What was stopped half-way is no ground for anything else.
        kept = whole.stopped ? null : { track, ground, whole };
        if (kept === null) return { ...bodyOf(whole), timesS: track.timesS, corrections };
      }
      return { ...bodyOf(applyCorrections(kept.whole, own)), timesS: track.timesS, corrections };
    },
  };
}

/** One fit alone: see {@link Fitter.fit}. */
export const fitTake: Fitter['fit'] = (...asked) => createFitter().fit(...asked);

function cameraOptions({ camera }: Corrections): FitOptions {
  return {
    ...(camera.pitchDeg === null ? {} : { pitchRad: camera.pitchDeg * RAD_PER_DEG }),
    ...(camera.rollDeg === null ? {} : { rollRad: camera.rollDeg * RAD_PER_DEG }),
    ...(camera.verticalFovDeg === null ? {} : { verticalFovDeg: camera.verticalFovDeg }),
  };
}
