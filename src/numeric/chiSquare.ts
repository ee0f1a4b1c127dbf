/** How far the mean of squared noise strays from its variance. */

/**
 * Quantile of a chi-square variable over its degrees of freedom: of the mean of `degrees` squares of normal noise of variance 1. Wilson & Hilferty
 * 1931, PNAS 17:684-688 (from memory); within 3 % from one degree on for z of 1 or more.
 *
 * @param z which quantile, in sigmas of the normal distribution: 0 the median, 3 one in 740 above
 * @param degrees of freedom, above 0, not whole where squares are unlike
 */
export function chiSquarePart(z: number, degrees: number): number {
  const spread = 2 / (9 * degrees);
  return Math.max(0, 1 - spread + z * Math.sqrt(spread)) ** 3;
}
