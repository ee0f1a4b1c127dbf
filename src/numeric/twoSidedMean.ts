/**
 * A running sum over time that looks as far back as ahead, on uneven times, in two sweeps: for evidence that comes and
 * goes (the plane in which a limb bends) and must be carried over from the frames around it without lag.
 */

/**
 * For each sample the sum of all samples of its run, weighted exp(-|time between them| / reachS). Symmetric in time, no
 * shift. The tail never quite ends, so that where nothing is near, what is far decides. Divide a weighted sum by the sum
 * of its weights to get a mean.
 *
 * @param timesS rising times; only entries `from`..`to` (inclusive) are read
 * @param values array with component c of sample k at `k·width + c`; replaced in place by the sums
 * @param width components a sample
 * @param reachS time after which a sample counts 1/e, seconds
 */
export function twoSidedSum(
  timesS: ArrayLike<number>, values: Float64Array, width: number, from: number, to: number, reachS: number,
): void {
  const count = to - from + 1;
  if (count < 2) return;
  const ahead = new Float64Array(count * width);
  /** What is left of a sample at the next one. */
  const fades = new Float64Array(count);
  for (let k = to - 1; k >= from; k--) {
    const fade = Math.exp(-(timesS[k + 1]! - timesS[k]!) / reachS);
    fades[k - from] = fade;
    const at = (k - from) * width;
    for (let c = 0; c < width; c++) {
      ahead[at + c] = fade * (ahead[at + width + c]! + values[(k + 1) * width + c]!);
    }
  }
  // forward sweep: values[k] becomes itself plus everything behind it
  for (let k = from + 1; k <= to; k++) {
    const fade = fades[k - 1 - from]!;
    for (let c = 0; c < width; c++) values[k * width + c]! += fade * values[(k - 1) * width + c]!;
  }
  for (let k = from; k <= to; k++) {
    for (let c = 0; c < width; c++) values[k * width + c]! += ahead[(k - from) * width + c]!;
  }
}
