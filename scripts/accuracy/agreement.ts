/**
 * How well a measured curve agrees with the true one: root mean square error, bias, correlation, count.
 */

export interface Agreement {
  /** Root mean square of measured - true, in the unit of the curves. */
  readonly rmse: number;
  /** Mean of measured - true. */
  readonly bias: number;
  /** Pearson's correlation; `null` where either curve hardly varies, because it then speaks of noise only. */
  readonly correlation: number | null;
  /** Pairs that went into it. */
  readonly n: number;
}

/** Below this standard deviation, in the unit of the curves (degrees), a curve counts as not varying. */
const LEAST_DEVIATION = 1;

/** A pair of one moment: [true, measured]. */
export type Pair = readonly [truth: number, measured: number];

/**
 * @param pairs pairs with NaN on either side are left out
 * @returns `undefined` where no pair is left
 */
export function agreement(pairs: readonly Pair[]): Agreement | undefined {
  const known = pairs.filter(([truth, measured]) => Number.isFinite(truth) && Number.isFinite(measured));
  const n = known.length;
  if (n === 0) return undefined;
  const mean = (pick: (pair: Pair) => number): number => known.reduce((sum, pair) => sum + pick(pair), 0) / n;
  const bias = mean(([truth, measured]) => measured - truth);
  const rmse = Math.sqrt(mean(([truth, measured]) => (measured - truth) ** 2));
  const trueMean = mean(([truth]) => truth);
  const measuredMean = mean(([, measured]) => measured);
  const trueDeviation = Math.sqrt(mean(([truth]) => (truth - trueMean) ** 2));
  const measuredDeviation = Math.sqrt(mean(([, measured]) => (measured - measuredMean) ** 2));
  const varies = trueDeviation >= LEAST_DEVIATION && measuredDeviation >= LEAST_DEVIATION;
  const shared = mean(([truth, measured]) => (truth - trueMean) * (measured - measuredMean));
  return { rmse, bias, correlation: varies ? shared / (trueDeviation * measuredDeviation) : null, n };
}
