/**
 * Shape-keeping cubic interpolation: the curve never swings beyond its knots, a flat stretch stays flat, an extreme
 * stays on its knot.
 *
 * Slopes: weighted harmonic mean of Fritsch & Butland 1984 (SIAM J. Sci. Stat. Comput. 5:300-304) inside, the
 * three-point formula held to the shape at the ends, as scipy's PchipInterpolator; checked against it in the tests.
 */

/** Slope at an inner knot from the widths and the mean slopes of the intervals on its two sides. */
export function pchipInnerSlope(hBefore: number, hAfter: number, before: number, after: number): number {
  if (!(before * after > 0)) return 0;
  const w1 = 2 * hAfter + hBefore;
  const w2 = hAfter + 2 * hBefore;
  return (w1 + w2) / (w1 / before + w2 / after);
}

/** Slope at an end knot from the nearest interval and the one behind it. */
export function pchipEndSlope(hNear: number, hFar: number, near: number, far: number): number {
  const slope = ((2 * hNear + hFar) * near - hNear * far) / (hNear + hFar);
  if (Math.sign(slope) !== Math.sign(near)) return 0;
  if (Math.sign(near) !== Math.sign(far) && Math.abs(slope) > 3 * Math.abs(near)) return 3 * near;
  return slope;
}

/** Cubic with values y0, y1 and slopes m0, m1 at the ends of an interval of width h, at the part u (0..1) of it. */
export function hermite(h: number, u: number, y0: number, y1: number, m0: number, m1: number): number {
  const v = 1 - u;
  return y0 * v * v * (1 + 2 * u) + y1 * u * u * (3 - 2 * u) + h * u * v * (m0 * v - m1 * u);
}

/**
 * Slopes at all knots.
 *
 * @param x n strictly rising places
 * @param y n values
 * @returns n slopes; one knot has slope 0, two have the slope of their line
 */
export function pchipSlopes(x: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  const n = x.length;
  const slopes = new Float64Array(n);
  if (n < 2) return slopes;
  let h0 = x[1]! - x[0]!;
  let d0 = (y[1]! - y[0]!) / h0;
  if (n === 2) return slopes.fill(d0);
  for (let k = 1; k < n - 1; k++) {
    const h1 = x[k + 1]! - x[k]!;
    const d1 = (y[k + 1]! - y[k]!) / h1;
    if (k === 1) slopes[0] = pchipEndSlope(h0, h1, d0, d1);
    slopes[k] = pchipInnerSlope(h0, h1, d0, d1);
    if (k === n - 2) slopes[n - 1] = pchipEndSlope(h1, h0, d1, d0);
    h0 = h1;
    d0 = d1;
  }
  return slopes;
}

/**
 * Interpolated values. Beyond the ends the end value is held (nothing is ever extrapolated).
 *
 * @param x n ≥ 1 strictly rising places
 * @param y n values
 * @param at m rising places
 * @returns m values
 */
export function pchip(x: ArrayLike<number>, y: ArrayLike<number>, at: ArrayLike<number>): Float64Array {
  const slopes = pchipSlopes(x, y);
  const out = new Float64Array(at.length);
  const last = x.length - 1;
  let k = 0;
  for (let i = 0; i < at.length; i++) {
    const here = at[i]!;
    if (last === 0 || here <= x[0]!) {
      out[i] = y[0]!;
    } else if (here >= x[last]!) {
      out[i] = y[last]!;
    } else {
      while (x[k + 1]! < here) k++;
      const h = x[k + 1]! - x[k]!;
      out[i] = hermite(h, (here - x[k]!) / h, y[k]!, y[k + 1]!, slopes[k]!, slopes[k + 1]!);
    }
  }
  return out;
}
