/**
 * Smoothing without lag: a second-order Butterworth low-pass run forward and backward.
 *
 * Two passes cut twice, so each pass gets a higher cut-off, chosen such that the pair has the gain 1/√2 at the wanted
 * frequency. The correction belongs on the pre-warped frequency (tangent), not on the frequency itself:
 * Winter, Biomechanics and Motor Control of Human Movement; Robertson & Dowling 2003, J. Electromyogr. Kinesiol.
 * 13:569-573. Padding and start state as scipy.signal.filtfilt by default; checked against it in the tests.
 */

/** y[n] = b0·x[n] + b1·x[n-1] + b2·x[n-2] - a1·y[n-1] - a2·y[n-2]. */
export interface Biquad {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/** Correction of the pre-warped cut-off for the number of passes: (2^(1/passes) - 1)^(1/4); 0.802 for two. */
export function passCorrection(passes: number): number {
  return (2 ** (1 / passes) - 1) ** 0.25;
}

/**
 * One pass of a second-order low-pass, by the bilinear transform.
 *
 * @param sampleHz samples a second
 * @param cutoffHz frequency at which all passes together have the gain 1/√2; below half of sampleHz
 * @param passes how many times the filter will be run over the data; 1 leaves the cut-off uncorrected
 */
export function butterworthLowPass(sampleHz: number, cutoffHz: number, passes: number): Biquad {
  const k = Math.tan((Math.PI * cutoffHz) / sampleHz) / passCorrection(passes);
  const k2 = k * k;
  const norm = 1 + Math.SQRT2 * k + k2;
  const b0 = k2 / norm;
  return { b0, b1: 2 * b0, b2: b0, a1: (2 * (k2 - 1)) / norm, a2: (1 - Math.SQRT2 * k + k2) / norm };
}

/** Samples that scipy's filtfilt adds at each end for a second-order section. */
export const DEFAULT_PAD = 9;

/**
 * Runs a filter forward and backward over a series.
 *
 * Before the start and behind the end the series is continued by its point reflection in the end sample, so that a
 * steady slope goes on as a slope; each pass starts in the state it would have after a long constant input.
 *
 * @param x n > padLength samples
 * @param padLength samples added at each end
 * @returns n samples, not shifted in time
 */
export function filtfilt(x: ArrayLike<number>, filter: Biquad, padLength: number = DEFAULT_PAD): Float64Array {
  const n = x.length;
  const work = new Float64Array(n + 2 * padLength);
  for (let k = 0; k < n; k++) work[padLength + k] = x[k]!;
  filtfiltPadded(work, n, filter, padLength);
  return work.slice(padLength, padLength + n);
}

/**
 * {@link filtfilt} in place, for hot loops: `work` holds the n samples from index `padLength` on and has room for
 * `padLength` more on both sides, which are overwritten.
 */
export function filtfiltPadded(work: Float64Array, n: number, filter: Biquad, padLength: number): void {
  const first = padLength;
  const last = padLength + n - 1;
  const atFirst = 2 * work[first]!;
  const atLast = 2 * work[last]!;
  for (let k = 1; k <= padLength; k++) {
    work[first - k] = atFirst - work[first + k]!;
    work[last + k] = atLast - work[last - k]!;
  }
  const { b0, b1, b2, a1, a2 } = filter;
  const total = n + 2 * padLength;
  // state of the transposed direct form after a long input of 1
  const steady2 = b2 - a2;
  const steady1 = b1 - a1 + steady2;
  let z1 = steady1 * work[0]!;
  let z2 = steady2 * work[0]!;
  for (let k = 0; k < total; k++) {
    const v = work[k]!;
    const y = b0 * v + z1;
    z1 = b1 * v - a1 * y + z2;
    z2 = b2 * v - a2 * y;
    work[k] = y;
  }
  z1 = steady1 * work[total - 1]!;
  z2 = steady2 * work[total - 1]!;
  for (let k = total - 1; k >= 0; k--) {
    const v = work[k]!;
    const y = b0 * v + z1;
    z1 = b1 * v - a1 * y + z2;
    z2 = b2 * v - a2 * y;
    work[k] = y;
  }
}
