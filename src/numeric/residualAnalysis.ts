/**
 * Residual analysis: which cut-off the data themselves ask for (Winter, Biomechanics and Motor Control of Human Movement).
 *
 * The RMS of what a low-pass takes away, drawn against its cut-off, falls steeply while it is movement that is taken and
 * then runs on as a nearly straight line while it is noise. That line, carried back to 0 Hz, tells the noise; the cut-off
 * proposed is where the residual is as large as it: there the movement that is lost and the noise that is let through are
 * about equal.
 */

export interface ResidualLine {
  /** Per hertz, and at 0 Hz; in the unit of the residuals. */
  readonly slope: number;
  readonly intercept: number;
}

/**
 * The straight line through the residuals between two cut-offs, by least squares.
 *
 * @param cutoffsHz n rising cut-offs
 * @param residuals n RMS residuals
 */
export function residualLine(cutoffsHz: ArrayLike<number>, residuals: ArrayLike<number>, fromHz: number, toHz: number): ResidualLine {
  let n = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  for (let k = 0; k < cutoffsHz.length; k++) {
    const x = cutoffsHz[k]!;
    if (x < fromHz || x > toHz) continue;
    n++;
    sx += x;
    sy += residuals[k]!;
    sxx += x * x;
    sxy += x * residuals[k]!;
  }
  const slope = n > 1 ? (n * sxy - sx * sy) / (n * sxx - sx * sx) : 0;
  return { slope, intercept: n > 0 ? (sy - slope * sx) / n : Number.NaN };
}

/**
 * The cut-off at which the falling curve of residuals comes down to a level, linear between its points.
 *
 * @returns the first cut-off of the list where the curve begins below the level, `null` where it never comes down to it
 */
export function cutoffAtResidual(cutoffsHz: ArrayLike<number>, residuals: ArrayLike<number>, level: number): number | null {
  if (cutoffsHz.length > 0 && residuals[0]! <= level) return cutoffsHz[0]!;
  for (let k = 1; k < cutoffsHz.length; k++) {
    const above = residuals[k - 1]! - level;
    const below = residuals[k]! - level;
    if (above > 0 && below <= 0) return cutoffsHz[k - 1]! + ((cutoffsHz[k]! - cutoffsHz[k - 1]!) * above) / (above - below);
  }
  return null;
}
