/**
 * Quantile regression of log |error| on predictors (Koenker & Bassett 1978, Econometrica 46:33-50), rising in those predictors
 * that are signs of trouble, with slopes of the classes drawn toward shared ones.
 *
 * The 68.27 % quantile of |error| is one sigma of a normal error and has a plain meaning for any other. A quantile
 * is kept by the logarithm, so the quantile of log |error| is fitted, where errors of all sizes count alike.
 */

/** One number off by so much, and what foretold it. */
export interface Sample {
  readonly errorClass: number;
  /** Clip, for leaving out and for weights. */
  readonly clip: number;
  /** log of the error in degrees, not under {@link LEAST_DEG}. */
  readonly logError: number;
  readonly x: Float64Array;
}

export interface Fitted {
  readonly start: Float64Array;
  /** `[class][predictor]`; none negative but for the free ones. */
  readonly slope: readonly Float64Array[];
}

export const ONE_SIGMA = 0.6827;
/** Errors under this are alike: smaller than the truth's own rounding and the smoothing. */
export const LEAST_DEG = 0.2;

/** The check function's kink is rounded over so much of a natural logarithm, so that its slope can be followed. */
const ROUNDED = 0.15;
const STEPS = 300;
const RATE = 0.05;

export interface Ridge {
  /** Pull of the shared slopes to 0. */
  readonly shared: number;
  /** Pull of a class's slopes to the shared ones. */
  readonly own: number;
}

/**
 * @param predictors their number
 * @param free those that may have slopes of either sign, such as marks of a kind
 */
export function fitQuantile(samples: readonly Sample[], classes: number, predictors: number, ridge: Ridge, free: readonly number[] = []): Fitted {
  const count = samples.length;
  const x = new Float64Array(count * predictors);
  samples.forEach((sample, i) => x.set(sample.x, i * predictors));
  const classOf = Int32Array.from(samples, ({ errorClass }) => errorClass);
  const y = Float64Array.from(samples, ({ logError }) => logError);
  const weights = weightsOf(samples, classes);
  const least = Float64Array.from({ length: predictors }, (_, k) => (free.includes(k) ? Number.NEGATIVE_INFINITY : 0));

  // layout: start[classes], shared[predictors], own[classes·predictors]
  const shared = classes;
  const own = classes + predictors;
  const n = own + classes * predictors;
  const p = new Float64Array(n);
  const gradient = new Float64Array(n);
  const m = new Float64Array(n);
  const v = new Float64Array(n);
  const slope = new Float64Array(classes * predictors);
  const pulls = new Float64Array(classes * predictors);
  for (let c = 0; c < classes; c++) p[c] = quantileOf(samples.filter((s) => s.errorClass === c).map((s) => s.logError), ONE_SIGMA) || 0;
  const settle = (): void => {
    for (let c = 0; c < classes; c++) {
      for (let k = 0; k < predictors; k++) slope[c * predictors + k] = Math.max(least[k]!, p[shared + k]! + p[own + c * predictors + k]!);
    }
  };
  for (let step = 1; step <= STEPS; step++) {
    gradient.fill(0);
    pulls.fill(0);
    settle();
    for (let i = 0; i < count; i++) {
      const c = classOf[i]!;
      let predicted = p[c]!;
      for (let k = 0; k < predictors; k++) predicted += slope[c * predictors + k]! * x[i * predictors + k]!;
      // derivative of the rounded check function
      const pull = weights[i]! * (1 / (1 + Math.exp((y[i]! - predicted) / ROUNDED)) - ONE_SIGMA);
      gradient[c]! += pull;
      for (let k = 0; k < predictors; k++) pulls[c * predictors + k]! += pull * x[i * predictors + k]!;
    }
    for (let c = 0; c < classes; c++) {
      for (let k = 0; k < predictors; k++) {
        const at = c * predictors + k;
        // a slope at its least is not pulled farther down
        if (slope[at]! <= least[k]! && pulls[at]! > 0) continue;
        gradient[shared + k]! += pulls[at]!;
        gradient[own + at]! += pulls[at]!;
      }
    }
    for (let k = 0; k < predictors; k++) gradient[shared + k]! += ridge.shared * p[shared + k]!;
    for (let k = own; k < n; k++) gradient[k]! += ridge.own * p[k]!;
    // Adam (Kingma & Ba 2015), with a rate that dies away
    const rate = RATE * Math.min(1, (2 * (STEPS - step)) / STEPS + 0.02);
    for (let k = 0; k < n; k++) {
      m[k] = 0.9 * m[k]! + 0.1 * gradient[k]!;
      v[k] = 0.99 * v[k]! + 0.01 * gradient[k]! ** 2;
      p[k]! -= (rate * m[k]!) / (1 - 0.9 ** step) / (Math.sqrt(v[k]! / (1 - 0.99 ** step)) + 1e-9);
    }
  }
  settle();
  return { start: p.slice(0, classes), slope: Array.from({ length: classes }, (_, c) => slope.slice(c * predictors, (c + 1) * predictors)) };
}

/** Every clip counts alike within a class, and every class alike; they sum to 1. */
function weightsOf(samples: readonly Sample[], classes: number): Float64Array {
  const counts = new Map<number, Map<number, number>>();
  for (const { errorClass, clip } of samples) {
    const clips = counts.get(errorClass) ?? new Map<number, number>();
    clips.set(clip, (clips.get(clip) ?? 0) + 1);
    counts.set(errorClass, clips);
  }
  return Float64Array.from(samples, ({ errorClass, clip }) => {
    const clips = counts.get(errorClass)!;
    return 1 / (clips.get(clip)! * clips.size * classes);
  });
}

/** Quantile of values, between neighbours on a line; NaN of none. */
export function quantileOf(values: readonly number[], share: number): number {
  if (values.length === 0) return Number.NaN;
  const sorted = Float64Array.from(values).sort();
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!);
}

export function predict(fitted: Fitted, sample: Pick<Sample, 'errorClass' | 'x'>): number {
  const slope = fitted.slope[sample.errorClass]!;
  let log = fitted.start[sample.errorClass]!;
  for (let k = 0; k < slope.length; k++) log += slope[k]! * sample.x[k]!;
  return log;
}

/** Mean check loss of a fit on samples, weighted as in fitting. */
export function checkLoss(fitted: Fitted, samples: readonly Sample[], classes: number): number {
  const weights = weightsOf(samples, classes);
  return samples.reduce((sum, sample, i) => {
    const r = sample.logError - predict(fitted, sample);
    return sum + weights[i]! * (r > 0 ? ONE_SIGMA * r : (ONE_SIGMA - 1) * r);
  }, 0);
}
