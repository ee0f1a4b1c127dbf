/**
 * Quantile regression of log |error| on predictors (Koenker & Bassett 1978, Econometrica 46:33-50), rising in every predictor,
 * with slopes of the classes drawn toward shared ones.
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
  /** `[class][predictor]`, none negative. */
  readonly slope: readonly Float64Array[];
}

export const ONE_SIGMA = 0.6827;
/** Errors under this are alike: smaller than the truth's own rounding and the smoothing. */
export const LEAST_DEG = 0.2;

/** The check function's kink is rounded over so much of a natural logarithm, so that its slope can be followed. */
const ROUNDED = 0.15;
const STEPS = 300;
const RATE = 0.05;

/**
 * @param ridge pull of the shared slopes to 0; that of a class's slopes to the shared ones
 */
export function fitQuantile(
  samples: readonly Sample[], classes: number, predictors: number, ridge: { readonly shared: number; readonly own: number },
): Fitted {
  const n = classes * (predictors + 1) + predictors;
  // layout: start[classes], shared[predictors], own[classes·predictors]
  const at = { start: 0, shared: classes, own: classes + predictors };
  const p = new Float64Array(n);
  const gradient = new Float64Array(n);
  const m = new Float64Array(n);
  const v = new Float64Array(n);
  const weights = weightsOf(samples, classes);
  for (let c = 0; c < classes; c++) p[c] = quantileOf(samples.filter((s) => s.errorClass === c).map((s) => s.logError), ONE_SIGMA);
  for (let step = 1; step <= STEPS; step++) {
    gradient.fill(0);
    samples.forEach((sample, i) => {
      const c = sample.errorClass;
      let predicted = p[c]!;
      for (let k = 0; k < predictors; k++) predicted += slopeAt(p, at, c, k, predictors) * sample.x[k]!;
      const r = (sample.logError - predicted) / ROUNDED;
      // derivative of the rounded check function
      const pull = weights[i]! * -(ONE_SIGMA - 1 / (1 + Math.exp(r)));
      gradient[c]! += pull;
      for (let k = 0; k < predictors; k++) {
        if (slopeAt(p, at, c, k, predictors) <= 0 && pull * sample.x[k]! > 0) continue;
        gradient[at.shared + k]! += pull * sample.x[k]!;
        gradient[at.own + c * predictors + k]! += pull * sample.x[k]!;
      }
    });
    for (let k = 0; k < predictors; k++) gradient[at.shared + k]! += ridge.shared * p[at.shared + k]!;
    for (let k = 0; k < classes * predictors; k++) gradient[at.own + k]! += ridge.own * p[at.own + k]!;
    // Adam (Kingma & Ba 2015), with a rate that dies away
    const rate = RATE * Math.min(1, (2 * (STEPS - step)) / STEPS + 0.02);
    for (let k = 0; k < n; k++) {
      m[k] = 0.9 * m[k]! + 0.1 * gradient[k]!;
      v[k] = 0.99 * v[k]! + 0.01 * gradient[k]! ** 2;
      p[k]! -= (rate * m[k]!) / (1 - 0.9 ** step) / (Math.sqrt(v[k]! / (1 - 0.99 ** step)) + 1e-9);
    }
  }
  return {
    start: p.slice(0, classes),
    slope: Array.from({ length: classes }, (_, c) => Float64Array.from({ length: predictors }, (__, k) => slopeAt(p, at, c, k, predictors))),
  };
}

function slopeAt(p: Float64Array, at: { readonly shared: number; readonly own: number }, c: number, k: number, predictors: number): number {
  return Math.max(0, p[at.shared + k]! + p[at.own + c * predictors + k]!);
}

/** Every clip counts alike within a class, and every class alike; they sum to 1. */
function weightsOf(samples: readonly Sample[], classes: number): Float64Array {
  const counts = new Map<string, number>();
  const clips = new Map<number, Set<number>>();
  for (const { errorClass, clip } of samples) {
    const key = `${errorClass} ${clip}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
    clips.set(errorClass, (clips.get(errorClass) ?? new Set()).add(clip));
  }
  return Float64Array.from(samples, ({ errorClass, clip }) => 1 / (counts.get(`${errorClass} ${clip}`)! * clips.get(errorClass)!.size * classes));
}

/** Quantile of values, between neighbours on a line; NaN of none. */
export function quantileOf(values: readonly number[], share: number): number {
  if (values.length === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
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
