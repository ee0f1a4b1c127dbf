/**
 * How far the measured curve of a joint lies behind or ahead of the true one, in frames of the source.
 */
import { type Excursion, excursions } from './excursions.ts';

export interface TimingOfOne {
  readonly truth: Excursion;
  /** `null` where the measurement shows no excursion at that time. */
  readonly measured: Excursion | null;
  /** Measured minus true time of the extreme, frames; positive is late. */
  readonly peakOffFrames: number | null;
  /** The same at the two levels on the way up, and at the two on the way down (means of what is there). */
  readonly riseOffFrames: number | null;
  readonly fallOffFrames: number | null;
  /** Mean of rise and fall. A curve squeezed or bent in height rises late and falls early (or the reverse): that cancels here, a lag does not. */
  readonly lagFrames: number | null;
}

/** Place of a moment between the frames, as a frame number with decimals, for constant and variable rates alike. */
export function frameOf(timesS: ArrayLike<number>, atS: number): number {
  const last = timesS.length - 1;
  let i = 0;
  while (i < last - 1 && timesS[i + 1]! <= atS) i += 1;
  return i + (atS - timesS[i]!) / (timesS[i + 1]! - timesS[i]!);
}

/** How long two excursions overlap, seconds; peaks stand in for ends that lie outside the clip. */
function overlapS(a: Excursion, b: Excursion): number {
  const start = (e: Excursion): number => e.riseLowS ?? e.riseHighS ?? e.peakS;
  const end = (e: Excursion): number => e.fallLowS ?? e.fallHighS ?? e.peakS;
  return Math.min(end(a), end(b)) - Math.max(start(a), start(b));
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value): value is number => value !== null);
  return known.length > 0 ? known.reduce((sum, value) => sum + value, 0) / known.length : null;
}

/**
 * @param timesS T frame times, strictly rising
 * @param truth T true values
 * @param measured T measured values, finite
 * @returns one entry for every excursion of the truth
 */
export function timing(timesS: ArrayLike<number>, truth: ArrayLike<number>, measured: ArrayLike<number>): TimingOfOne[] {
  const seen = excursions(timesS, measured);
  return excursions(timesS, truth).map((real) => {
    const best = seen.reduce<Excursion | null>((so, next) => (so === null || overlapS(real, next) > overlapS(real, so) ? next : so), null);
    const match = best !== null && overlapS(real, best) > 0 ? best : null;
    const off = (a: number | null, b: number | null | undefined): number | null =>
      a === null || b === null || b === undefined ? null : frameOf(timesS, b) - frameOf(timesS, a);
    const rise = meanOf([off(real.riseLowS, match?.riseLowS), off(real.riseHighS, match?.riseHighS)]);
    const fall = meanOf([off(real.fallLowS, match?.fallLowS), off(real.fallHighS, match?.fallHighS)]);
    return {
      truth: real,
      measured: match,
      peakOffFrames: off(real.peakS, match?.peakS),
      riseOffFrames: rise,
      fallOffFrames: fall,
      lagFrames: rise === null || fall === null ? null : (rise + fall) / 2,
    };
  });
}
