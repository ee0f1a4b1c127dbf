/** Small helpers over series in time: filling holes, order statistics, and a smooth way from knots to frames. */

/** Fills NaN entries of each of `width` interleaved channels by straight lines between known neighbours; ends are held. Returns false where a channel knows nothing. */
export function fillHoles(series: Float64Array, width: number, timesS: Float64Array): boolean {
  const count = timesS.length;
  for (let c = 0; c < width; c++) {
    let last = -1;
    for (let t = 0; t < count; t++) {
      if (Number.isNaN(series[t * width + c]!)) continue;
      const now = series[t * width + c]!;
      for (let u = last + 1; u < t; u++) {
        const share = last < 0 ? 1 : (timesS[u]! - timesS[last]!) / (timesS[t]! - timesS[last]!);
        const before = last < 0 ? now : series[last * width + c]!;
        series[u * width + c] = before + share * (now - before);
      }
      last = t;
    }
    if (last < 0) return false;
    for (let u = last + 1; u < count; u++) series[u * width + c] = series[last * width + c]!;
  }
  return true;
}

/** The share-quantile of the finite values (linear between ranks); NaN where there is none. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).filter((v) => Number.isFinite(v)).sort();
  if (sorted.length === 0) return Number.NaN;
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * (sorted[Math.min(sorted.length - 1, low + 1)]! - sorted[low]!);
}

/**
 * Cubic Hermite interpolation of `width` interleaved channels from knots to frames, with the slopes of the parabola through
 * each knot and its neighbours. Knots are frames, so they are kept exactly.
 *
 * @param series [K·width] @param knotsS [K] rising @param timesS [T] within the knots' span
 */
export function interpolate(series: Float64Array, width: number, knotsS: Float64Array, timesS: Float64Array): Float64Array {
  const k = knotsS.length;
  const out = new Float64Array(timesS.length * width);
  if (k === 1) {
    for (let t = 0; t < timesS.length; t++) out.set(series.subarray(0, width), t * width);
    return out;
  }
  const slopes = new Float64Array(series.length);
  for (let i = 0; i < k; i++) {
    const j = Math.min(k - 2, Math.max(1, i));
    for (let c = 0; c < width; c++) {
      if (k === 2) {
        slopes[i * width + c] = (series[width + c]! - series[c]!) / (knotsS[1]! - knotsS[0]!);
        continue;
      }
      const h0 = knotsS[j]! - knotsS[j - 1]!;
      const h1 = knotsS[j + 1]! - knotsS[j]!;
      const s0 = (series[j * width + c]! - series[(j - 1) * width + c]!) / h0;
      const s1 = (series[(j + 1) * width + c]! - series[j * width + c]!) / h1;
      const middle = (s0 * h1 + s1 * h0) / (h0 + h1);
      const bend = (s1 - s0) / (h0 + h1);
      slopes[i * width + c] = i < j ? s0 - bend * h0 : i > j ? s1 + bend * h1 : middle;
    }
  }
  let i = 0;
  for (let t = 0; t < timesS.length; t++) {
    while (i < k - 2 && timesS[t]! >= knotsS[i + 1]!) i++;
    const h = knotsS[i + 1]! - knotsS[i]!;
    const u = (timesS[t]! - knotsS[i]!) / h;
    const a = (1 + 2 * u) * (1 - u) * (1 - u);
    const b = u * (1 - u) * (1 - u) * h;
    const c = u * u * (3 - 2 * u);
    const d = u * u * (u - 1) * h;
    for (let w = 0; w < width; w++) {
      const p = i * width + w;
      const q = p + width;
      out[t * width + w] = a * series[p]! + b * slopes[p]! + c * series[q]! + d * slopes[q]!;
    }
  }
  return out;
}
