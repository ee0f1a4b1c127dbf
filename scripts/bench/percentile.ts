/**
 * Quantiles of repeated measurements. A mean would hide the one slow run that a person notices.
 */

/**
 * Quantile by linear interpolation between the order statistics (type 7 of Hyndman & Fan 1996, the default of R and numpy).
 *
 * @param values any order, at least one
 * @param share 0..1; 0.5 is the median
 * @throws RangeError for an empty list or a share outside 0..1
 */
export function percentile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new RangeError('No values to take a quantile of.');
  if (!(share >= 0 && share <= 1)) throw new RangeError(`A share lies in 0..1, not ${share}.`);
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const below = sorted[Math.floor(at)]!;
  const above = sorted[Math.ceil(at)]!;
  return below + (above - below) * (at - Math.floor(at));
}

/** Median. */
export const median = (values: readonly number[]): number => percentile(values, 0.5);
