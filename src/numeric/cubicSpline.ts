/**
 * The cubic spline: smooth up to the second derivative, and therefore free to swing beyond its knots and out of a hold. For
 * quantities that may (a camera's path); poses and angles go through `pchip.ts`, which may not.
 *
 * Slopes from the tridiagonal equations of continuous curvature (de Boor, A Practical Guide to Splines, 1978; from memory);
 * checked against scipy's CubicSpline in the tests.
 */
import { hermite } from './pchip.ts';

/**
 * What holds at the two ends: `natural`, no curvature; or `clamped`, the slopes given (0 and 0: from rest to rest).
 */
export type SplineEnds = { readonly kind: 'natural' } | { readonly kind: 'clamped'; readonly firstSlope: number; readonly lastSlope: number };

export const NATURAL: SplineEnds = { kind: 'natural' };
/** From rest to rest. */
export const AT_REST: SplineEnds = { kind: 'clamped', firstSlope: 0, lastSlope: 0 };

/**
 * Slopes at all knots.
 *
 * @param x n ≥ 2 strictly rising places
 * @param y n values
 */
export function splineSlopes(x: ArrayLike<number>, y: ArrayLike<number>, ends: SplineEnds): Float64Array {
  const n = x.length;
  const above = new Float64Array(n);
  const slopes = new Float64Array(n);
  const width = (k: number): number => x[k + 1]! - x[k]!;
  const mean = (k: number): number => (y[k + 1]! - y[k]!) / width(k);
  /** Of knot k: what the slopes before, at and after it are taken times, and their sum. */
  const equation = (k: number): readonly [before: number, middle: number, after: number, right: number] => {
    if (k > 0 && k < n - 1) {
      const right = 3 * (width(k) * mean(k - 1) + width(k - 1) * mean(k));
      return [width(k), 2 * (width(k - 1) + width(k)), width(k - 1), right];
    }
    if (ends.kind === 'clamped') return [0, 1, 0, k === 0 ? ends.firstSlope : ends.lastSlope];
    return k === 0 ? [0, 2, 1, 3 * mean(0)] : [1, 2, 0, 3 * mean(n - 2)];
  };
  for (let k = 0; k < n; k++) {
    const [before, middle, after, right] = equation(k);
    const pivot = middle - before * (above[k - 1] ?? 0);
    above[k] = after / pivot;
    slopes[k] = (right - before * (slopes[k - 1] ?? 0)) / pivot;
  }
  for (let k = n - 2; k >= 0; k--) slopes[k]! -= above[k]! * slopes[k + 1]!;
  return slopes;
}

/**
 * Interpolated values. Beyond the ends the end value is held (nothing is ever extrapolated).
 *
 * @param x n ≥ 2 strictly rising places
 * @param y n values
 * @param at m rising places
 * @returns m values
 */
export function cubicSpline(x: ArrayLike<number>, y: ArrayLike<number>, at: ArrayLike<number>, ends: SplineEnds): Float64Array {
  const slopes = splineSlopes(x, y, ends);
  const last = x.length - 1;
  let k = 0;
  return Float64Array.from(at, (here) => {
    if (here <= x[0]!) return y[0]!;
    if (here >= x[last]!) return y[last]!;
    while (x[k + 1]! < here) k++;
    const h = x[k + 1]! - x[k]!;
    return hermite(h, (here - x[k]!) / h, y[k]!, y[k + 1]!, slopes[k]!, slopes[k + 1]!);
  });
}
