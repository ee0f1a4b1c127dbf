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
import { slateOf } from '../corrections/slate.ts';
import { repairSwaps } from '../corrections/swaps.ts';
import { fitWhole, type FitHooks, type FitOptions } from './fitBody.ts';
import type { FittedBody, FoundSwap, SlateSpans } from './fittedBody.ts';
import { readingsOf } from './reader/readers.ts';
import type { Readings } from './reader/readTrack.ts';
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

/** A fit without what was said about places in it, and what it was made from. */
interface Ground {
  readonly track: Track;
  readonly made: string;
  readonly whole: WholeFit;
  readonly swaps: readonly FoundSwap[];
  readonly slate: SlateSpans | null;
}

/**
 * A fitter that knows no take yet.
 *
 * @param read the reader of a track; a track that no pose model made, such as a drawn one, is better not read
 */
export function createFitter(read: (track: Track) => Readings | null = readingsOf): Fitter {
  let kept: Ground | null = null;
  return {
    fit: (track, captureFactor, corrections = NO_CORRECTIONS, hooks = {}) => {
      const own = atPerformersPace(corrections, captureFactor);
      const made = JSON.stringify([captureFactor, own.camera, own.swaps, own.slate]);
      let ground = kept;
      if (ground?.track !== track || ground.made !== made) {
        const performer: Track = { ...track, timesS: track.timesS.map((timeS) => timeS / captureFactor) };
        const { track: repaired, swaps } = repairSwaps(performer, own.swaps);
        const slate = slateOf(repaired, own.slate);
        const whole = withHeads(fitWhole(repaired, { ...cameraOptions(own), slate, readings: read(repaired) }, hooks));
        ground = { track, made, whole, slate: slate && atContainersPace(slate, captureFactor), swaps: swaps.map((swap) => ({ ...swap, fromS: swap.fromS * captureFactor, toS: swap.toS * captureFactor })) };
        // What was stopped half-way is no ground for anything else.
        kept = whole.stopped ? null : ground;
      }
      const { whole, swaps, slate } = ground;
      const body = bodyOf(whole.stopped ? whole : applyCorrections(whole, own));
      return { ...body, timesS: track.timesS.slice(), swaps, slate, corrections };
    },
  };
}

/** One fit alone: see {@link Fitter.fit}. */
export const fitTake: Fitter['fit'] = (...asked) => createFitter().fit(...asked);

function atContainersPace(slate: SlateSpans, captureFactor: number): SlateSpans {
  const { squareFromS, squareToS } = slate;
  return {
    ...slate, straightFromS: slate.straightFromS * captureFactor, straightToS: slate.straightToS * captureFactor,
    squareFromS: squareFromS === null ? null : squareFromS * captureFactor, squareToS: squareToS === null ? null : squareToS * captureFactor,
  };
}

function cameraOptions({ camera }: Corrections): FitOptions {
  return {
    ...(camera.pitchDeg === null ? {} : { pitchRad: camera.pitchDeg * RAD_PER_DEG }),
    ...(camera.rollDeg === null ? {} : { rollRad: camera.rollDeg * RAD_PER_DEG }),
    ...(camera.verticalFovDeg === null ? {} : { verticalFovDeg: camera.verticalFovDeg }),
  };
}
