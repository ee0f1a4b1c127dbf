/** Taps of the stopwatch, counted in exposures. A tap counts for the exposure that is nearest to it. */
export interface CountedTap {
  /** Moment of the film, on a whole exposure, seconds from its first. */
  readonly filmS: number;
  /** Exposure that begins there, counted from 1. */
  readonly exposure: number;
  /** Exposures since the tap before; 0 for the first. */
  readonly sinceLast: number;
}

/**
 * @param tapsFilmS moments of the film at which somebody tapped, seconds, in any order
 * @param rate exposures a second
 * @returns rising; taps within one exposure are one
 */
export function countTaps(tapsFilmS: readonly number[], rate: number): readonly CountedTap[] {
  const at = [...new Set(tapsFilmS.map((filmS) => Math.max(0, Math.round(filmS * rate))))].sort((a, b) => a - b);
  return at.map((exposure, k) => ({ filmS: exposure / rate, exposure: exposure + 1, sinceLast: k === 0 ? 0 : exposure - at[k - 1]! }));
}
