/**
 * Whether frames come evenly, and the even grid that stands in for them where they don't.
 */

/**
 * How far a frame may lie from its place on an even grid, as a part of the interval, and still count as even. Containers
 * round times to their ticks (1 ms in WebM: 6 % at 60 frames a second); the camera's own clock is evener than that.
 */
const EVEN_WITHIN = 0.1;

/** Most samples that an uneven stretch is laid out on, as a multiple of its frames: a long hole must not fill the memory. */
const LARGEST_GRID = 20;

/** `gridS` is `null` where the frames are even already; `sampleHz` is the grid's, or the frames' own. */
export interface EvenGrid {
  readonly sampleHz: number;
  readonly gridS: Float64Array | null;
}

/** @param frameS two or more rising times, seconds */
export function layOutGrid(frameS: Float64Array): EvenGrid {
  const n = frameS.length;
  const first = frameS[0]!;
  const span = frameS[n - 1]! - first;
  const mean = span / (n - 1);
  let even = true;
  for (let k = 1; k < n && even; k++) even = Math.abs(frameS[k]! - first - k * mean) <= EVEN_WITHIN * mean;
  if (even) return { sampleHz: 1 / mean, gridS: null };
  // stretched to end on the last frame, so that both ends keep their own samples
  const steps = Math.min(Math.ceil(span / medianInterval(frameS) - 1e-9), LARGEST_GRID * n);
  const step = span / steps;
  return { sampleHz: 1 / step, gridS: Float64Array.from({ length: steps + 1 }, (_, k) => first + k * step) };
}

/** The middle one of the intervals between times, seconds; of an even number the upper. */
export function medianInterval(frameS: Float64Array): number {
  const intervals = new Float64Array(frameS.length - 1);
  for (let k = 0; k < intervals.length; k++) intervals[k] = frameS[k + 1]! - frameS[k]!;
  intervals.sort();
  return intervals[intervals.length >> 1]!;
}
