/**
 * The warp: which moment of the take stands at each moment of the film.
 *
 * Anchors tie the two clocks; between them runs a monotone cubic (Fritsch & Butland 1984, as in `numeric/pchip.ts`), so the
 * performance never runs backwards, its speed has no jumps, every anchor is hit exactly, and two anchors with one moment of the
 * take hold it still, with an ease into the pause and out of it. Of the monotone cubics this one keeps nearest to the slower of
 * two neighbouring speeds, which reads as an ease; Steffen's (1990) gives nearly the same. At both ends the speed is that of
 * the first and last span.
 */
import { hermite, pchipInnerSlope } from '../../numeric/pchip.ts';

/** A moment of the film tied to one of the take, both in seconds. */
export interface Anchor {
  readonly filmS: number;
  readonly sourceS: number;
}

export interface Warp {
  readonly anchors: readonly Anchor[];
  /** Container time at a moment of the film; before the first and after the last anchor theirs. */
  readonly sourceAt: (filmS: number) => number;
  /** First moment of the film that shows a moment of the take; before the first and after the last anchor theirs. */
  readonly filmAt: (sourceS: number) => number;
  /** Seconds of the take that pass in a second of film. */
  readonly speedAt: (filmS: number) => number;
}

/** A moment of the film this near to an anchor is the anchor's: whole exposures divided by a rate are rounded to the last digit. */
const SAME_S = 1e-9;
const HALVINGS = 60;

/**
 * @param anchors two or more; film times strictly rising, times of the take never falling
 */
export function makeWarp(anchors: readonly Anchor[]): Warp {
  const n = anchors.length;
  const film = Float64Array.from(anchors, ({ filmS }) => filmS);
  const source = Float64Array.from(anchors, ({ sourceS }) => sourceS);
  const speeds = new Float64Array(n);
  const chord = (k: number): number => (source[k + 1]! - source[k]!) / (film[k + 1]! - film[k]!);
  for (let k = 1; k < n - 1; k++) speeds[k] = pchipInnerSlope(film[k]! - film[k - 1]!, film[k + 1]! - film[k]!, chord(k - 1), chord(k));
  speeds[0] = chord(0);
  speeds[n - 1] = chord(n - 2);

  const spanAt = (filmS: number): number => {
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (film[middle]! <= filmS) low = middle;
      else high = middle;
    }
    return low;
  };
  const within = (k: number, filmS: number): number => {
    const h = film[k + 1]! - film[k]!;
    return hermite(h, (filmS - film[k]!) / h, source[k]!, source[k + 1]!, speeds[k]!, speeds[k + 1]!);
  };
  const sourceAt = (filmS: number): number => {
    if (filmS <= film[0]! + SAME_S) return source[0]!;
    if (filmS >= film[n - 1]! - SAME_S) return source[n - 1]!;
    const k = spanAt(filmS);
    if (filmS - film[k]! <= SAME_S) return source[k]!;
    if (film[k + 1]! - filmS <= SAME_S) return source[k + 1]!;
    // rounding may not push it beyond the anchors
    return Math.min(source[k + 1]!, Math.max(source[k]!, within(k, filmS)));
  };
  return {
    anchors,
    sourceAt,
    filmAt: (sourceS) => {
      if (sourceS <= source[0]!) return film[0]!;
      if (sourceS > source[n - 1]!) return film[n - 1]!;
      let k = 0;
      while (source[k + 1]! < sourceS) k++;
      if (source[k + 1] === sourceS) return film[k + 1]!;
      let low = film[k]!;
      let high = film[k + 1]!;
      // the cubic rises all along; halving can't be led astray where it is nearly flat
      for (let i = 0; i < HALVINGS && high - low > 0; i++) {
        const middle = (low + high) / 2;
        if (within(k, middle) < sourceS) low = middle;
        else high = middle;
      }
      return high;
    },
    speedAt: (filmS) => {
      const k = Math.min(n - 2, spanAt(Math.min(film[n - 1]!, Math.max(film[0]!, filmS))));
      const h = film[k + 1]! - film[k]!;
      const u = Math.min(1, Math.max(0, (filmS - film[k]!) / h));
      return (6 * u * (1 - u) * (source[k + 1]! - source[k]!)) / h + speeds[k]! * (1 - u) * (1 - 3 * u) + speeds[k + 1]! * u * (3 * u - 2);
    },
  };
}
