/**
 * By how much one speed follows another: the lag at which they are most alike (normalised cross-correlation of the two, each
 * less its own mean), between steps by a parabola through the best and its neighbours.
 */

export interface Lag {
  /** Steps by which `b` comes after `a`; negative: before. */
  readonly steps: number;
  /**
   * 0..1: the correlation at the best lag, times how far it stands out above the best that is more than two steps away
   * (as a part of itself). Two speeds that rise and fall again and again fit at many lags, and none of them is sure.
   */
  readonly confidence: number;
}

/** Fewest steps that both must know for a lag to be told. */
const LEAST_STEPS = 6;
/** Lags this near to the best belong to its own peak. */
const OWN_PEAK_STEPS = 2;
/** Reach of the parabola that tells the lag between steps, to either side. */
const PARABOLA_STEPS = 2;

/**
 * @param a,b values at the same steps; steps at which either is NaN are left out
 * @param mostSteps largest lag that is looked at
 * @returns `null` where one of them does not vary, or too few steps are known
 */
export function lagBetween(a: ArrayLike<number>, b: ArrayLike<number>, mostSteps: number): Lag | null {
  const count = Math.min(a.length, b.length);
  const most = Math.min(mostSteps, Math.floor(count / 2));
  const [ofA, ofB] = [centred(a, count), centred(b, count)];
  if (ofA === null || ofB === null) return null;
  const fits = new Float64Array(2 * most + 1);
  const norm = Math.sqrt(ofA.square * ofB.square);
  let best = 0;
  for (let lag = -most; lag <= most; lag++) {
    let sum = 0;
    for (let s = Math.max(0, -lag); s < Math.min(count, count - lag); s++) sum += ofA.values[s]! * ofB.values[s + lag]!;
    fits[lag + most] = sum / norm;
    if (fits[lag + most]! > fits[best]!) best = lag + most;
  }
  const top = fits[best]!;
  if (!(top > 0)) return null;
  let rival = 0;
  for (let k = 1; k < fits.length - 1; k++) {
    if (Math.abs(k - best) <= OWN_PEAK_STEPS || fits[k]! < fits[k - 1]! || fits[k]! < fits[k + 1]!) continue;
    rival = Math.max(rival, fits[k]!);
  }
  const part = vertex(fits, best);
  return { steps: best - most + part, confidence: Math.min(1, top) * (1 - Math.max(0, rival) / top) };
}

/**
 * Where between the lags the best fit lies, in steps from the best whole one: the vertex of the parabola through its neighbours by
 * least squares, two on either side where they are there (noise then counts less than with one).
 */
function vertex(fits: Float64Array, best: number): number {
  const reach = Math.min(PARABOLA_STEPS, best, fits.length - 1 - best);
  if (reach < 1) return 0;
  let [slope, bend, squares, fourths, sum] = [0, 0, 0, 0, 0];
  for (let k = -reach; k <= reach; k++) {
    slope += k * fits[best + k]!;
    bend += k * k * fits[best + k]!;
    sum += fits[best + k]!;
    squares += k * k;
    fourths += k ** 4;
  }
  const curvature = (bend - (squares * sum) / (2 * reach + 1)) / (fourths - squares ** 2 / (2 * reach + 1));
  return curvature < 0 ? Math.max(-1, Math.min(1, -slope / squares / (2 * curvature))) : 0;
}

/** Values less their mean, 0 where not known, and the sum of their squares; `null` where nothing varies. */
function centred(values: ArrayLike<number>, count: number): { readonly values: Float64Array; readonly square: number } | null {
  let sum = 0;
  let known = 0;
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(values[s]!)) continue;
    sum += values[s]!;
    known += 1;
  }
  if (known < LEAST_STEPS) return null;
  const mean = sum / known;
  const out = new Float64Array(count);
  let square = 0;
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(values[s]!)) continue;
    out[s] = values[s]! - mean;
    square += out[s]! ** 2;
  }
  return square > 1e-12 ? { values: out, square } : null;
}
