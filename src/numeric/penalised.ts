/**
 * The penalised smoother: of all curves through n samples, the one that weighs nearness to the samples against roughness,
 *
 *     Σ w·h·(z - y)² + λ·Σ h·(z⁽ᵈ⁾)²,
 *
 * where z⁽ᵈ⁾ are divided differences of order d, h the time that a sample or a difference stands for, and w how much a
 * sample is trusted. A sample of weight 0 is not looked at, so the curve runs through a gap by itself; nothing has to be made
 * up beyond the ends; past and future count alike. λ → 0 gives the samples back, λ → ∞ their weighted straight line (d = 2)
 * or parabola (d = 3), which no λ bends.
 *
 * Whittaker 1923, Proc. Edinburgh Math. Soc. 41:63-75; Eilers 2003, Anal. Chem. 75:3631-3636 (both from memory). Times need
 * not be even: the differences are divided ones, and the samples carry h so that a span with more frames is not smoothed
 * less. Solved by Cholesky's way (L·D·Lᵀ) on the band of d diagonals beside the main one, O(n).
 */

export type PenaltyOrder = 2 | 3;

/** What makes a curve rough, for n samples and one stiffness; shared by all series over the same times. */
export interface Roughness {
  readonly n: number;
  readonly order: PenaltyOrder;
  /** `[n]` h of each sample, in intervals. */
  readonly spans: Float64Array;
  /** `[(n - d)·(d + 1)]` √(λ·h) times the coefficients of each divided difference. */
  readonly rows: Float64Array;
  /** `[n·4]` (rows)ᵀ·(rows): the diagonal, then the three numbers left of it (nearest first; the third is 0 for order 2). */
  readonly band: Float64Array;
  /** The equations are so stiff that rounding shows; a solution is refined once. */
  readonly stiff: boolean;
}

/** The factored equations of n samples and their weights; solves any number of series. */
export interface PenalisedFactor {
  readonly roughness: Roughness;
  /** `[n]` w·h of each sample. */
  readonly weight: Float64Array;
  /** `[(n + 3)·4]` 1/D, then the three numbers of L left of the diagonal; three rows of nothing at the end. */
  readonly factor: Float64Array;
}

/** How much a sine is held back in even samples: λ·(2·sin(π·f·h))^(2d). */
const heldBack = (cyclesPerSample: number, order: PenaltyOrder, stiffness: number): number => stiffness * (2 * Math.sin(Math.PI * cyclesPerSample)) ** (2 * order);

/** Part of a sine that is left by a smoother of this stiffness: even samples, weight 1, far from the ends. */
export const penalisedGain = (cyclesPerSample: number, order: PenaltyOrder, stiffness: number): number => 1 / (1 + heldBack(cyclesPerSample, order, stiffness));

/** Part of a sine that {@link smoothTwiced} leaves, likewise. */
export const twicedGain = (cyclesPerSample: number, order: PenaltyOrder, stiffness: number): number => twicedGainOf(heldBack(cyclesPerSample, order, stiffness));

/** The same of a sine that is held back so much ({@link TWICED_AT_CUTOFF} at the cut-off): what one pass lacks, squared, is lacking from one. */
export const twicedGainOf = (held: number): number => 1 - (held / (1 + held)) ** 2;

/** What one of the two passes lacks of a sine of which both leave 1/√2. */
const MISSING_AT_CUTOFF = Math.sqrt(1 - Math.SQRT1_2);
/** λ·(2·sin(π·f·h))^(2d) at the cut-off of {@link smoothTwiced}. */
export const TWICED_AT_CUTOFF = MISSING_AT_CUTOFF / (1 - MISSING_AT_CUTOFF);

/**
 * λ, in sample intervals, for which {@link smoothTwiced} keeps 1/√2 of a sine of this frequency, in even samples of weight 1.
 *
 * @param cyclesPerSample cut-off ÷ sample rate, 0..0.5
 */
export function twicedStiffnessFor(cyclesPerSample: number, order: PenaltyOrder): number {
  return TWICED_AT_CUTOFF / (2 * Math.sin(Math.PI * cyclesPerSample)) ** (2 * order);
}

/** Stiffness from which one solution is off by more than about 1e-9 of the data and is refined. */
const STIFF = 1e5;

/**
 * @param times n > order rising times, in any unit
 * @param interval the unit in which stiffness counts: usually the median of the intervals
 * @param stiffness λ ≥ 0 in intervals, see {@link twicedStiffnessFor}
 */
export function roughnessOf(times: ArrayLike<number>, interval: number, order: PenaltyOrder, stiffness: number): Roughness {
  const n = times.length;
  const spans = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const first = Math.max(0, k - 1);
    const last = Math.min(n - 1, k + 1);
    spans[k] = (times[last]! - times[first]!) / interval / (last - first);
  }
  const rows = differenceRows(times, interval, order, stiffness);
  const band = new Float64Array(n * 4);
  const width = order + 1;
  for (let r = 0; r + order < n; r++) {
    for (let i = 0; i < width; i++) {
      for (let j = 0; j <= i; j++) band[(r + i) * 4 + i - j]! += rows[r * width + i]! * rows[r * width + j]!;
    }
  }
  return { n, order, spans, rows, band, stiff: stiffness > STIFF };
}

/** Rows of nothing beside the solution, so that its first and last rows are worked out like all others. */
const ROOM = 3;

/** @param weights n numbers ≥ 0, more than the order of them above 0, or `null` for 1 everywhere */
export function factorPenalised(roughness: Roughness, weights: ArrayLike<number> | null): PenalisedFactor {
  const { n, spans, band } = roughness;
  const weight = spans.slice();
  if (weights !== null) for (let k = 0; k < n; k++) weight[k]! *= weights[k]!;
  const factor = new Float64Array((n + ROOM) * 4);
  factor.set(band);
  for (let k = 0; k < n; k++) factor[k * 4]! += weight[k]!;
  return { roughness, weight, factor: factorBand(factor, n) };
}

/** d!/Π(t_j - t_m) for each j of d + 1 neighbours, times the root of λ and of the time that the difference stands for. */
function differenceRows(times: ArrayLike<number>, interval: number, order: PenaltyOrder, stiffness: number): Float64Array {
  const n = times.length;
  const width = order + 1;
  const rows = new Float64Array(Math.max(0, n - order) * width);
  const factorial = order === 2 ? 2 : 6;
  for (let r = 0; r + order < n; r++) {
    const size = factorial * Math.sqrt((stiffness * (times[r + order]! - times[r]!)) / interval / order);
    for (let j = 0; j < width; j++) {
      let product = 1;
      for (let m = 0; m < width; m++) if (m !== j) product *= (times[r + j]! - times[r + m]!) / interval;
      rows[r * width + j] = size / product;
    }
  }
  return rows;
}

/** L·D·Lᵀ of a symmetric matrix with three diagonals beside the main one, in place: as in {@link PenalisedFactor}. */
function factorBand(band: Float64Array, n: number): Float64Array {
  // 1/D of the three rows before, and of L what the rows to come need; one division a row, for they are what takes time
  let i1 = 0;
  let i2 = 0;
  let i3 = 0;
  let before1 = 0;
  let before2 = 0;
  let twoBefore1 = 0;
  for (let i = 0; i < n; i++) {
    const b = i * 4;
    // the numbers of L times D
    const m3 = band[b + 3]!;
    const m2 = band[b + 2]! - m3 * twoBefore1;
    const m1 = band[b + 1]! - m3 * before2 - m2 * before1;
    const l3 = m3 * i3;
    const l2 = m2 * i2;
    const l1 = m1 * i1;
    const inverse = 1 / (band[b]! - l3 * m3 - l2 * m2 - l1 * m1);
    band[b] = inverse;
    band[b + 1] = l1;
    band[b + 2] = l2;
    band[b + 3] = l3;
    twoBefore1 = before1;
    before1 = l1;
    before2 = l2;
    i3 = i2;
    i2 = i1;
    i1 = inverse;
  }
  return band;
}

/**
 * Smooths neighbouring series in place, all of them in one go: the work of each waits for itself and not for the others.
 *
 * @param values sample k of series c lies at `offset + k·stride + c`; those of weight 0 are not read as evidence (but must be
 *   numbers)
 * @param width number of series
 */
export function smoothPenalised(equations: PenalisedFactor, values: Float64Array, stride = 1, offset = 0, width = 1): void {
  const { n } = equations.roughness;
  const z = solved(equations, values, stride, offset, width);
  for (let k = 0, i = ROOM * width; k < n; k++) {
    for (let at = offset + k * stride, end = at + width; at < end; at++, i++) values[at] = z[i]!;
  }
}

/**
 * As {@link smoothPenalised}, twice: what the first pass leaves over is smoothed in the same way and added. So slow moves are
 * kept all but whole, while what is quick is taken away nearly as by one pass (twicing: Tukey 1977, Exploratory Data Analysis,
 * from memory).
 */
export function smoothTwiced(equations: PenalisedFactor, values: Float64Array, stride = 1, offset = 0, width = 1): void {
  const { n } = equations.roughness;
  const z = solved(equations, values, stride, offset, width);
  const rest = new Float64Array(n * width);
  const room = ROOM * width;
  for (let k = 0, i = 0; k < n; k++) {
    for (let at = offset + k * stride, end = at + width; at < end; at++, i++) rest[i] = values[at]! - z[room + i]!;
  }
  const more = solved(equations, rest, width, 0, width);
  for (let k = 0, i = room; k < n; k++) {
    for (let at = offset + k * stride, end = at + width; at < end; at++, i++) values[at] = z[i]! + more[i]!;
  }
}

/** The smooth series, row k at `(k + 3)·width`. */
function solved(equations: PenalisedFactor, values: Float64Array, stride: number, offset: number, width: number): Float64Array {
  const { weight, factor, roughness: { n, stiff } } = equations;
  const z = new Float64Array((n + 2 * ROOM) * width);
  for (let k = 0, i = ROOM * width; k < n; k++) {
    const w = weight[k]!;
    for (let at = offset + k * stride, end = at + width; at < end; at++, i++) z[i] = w * values[at]!;
  }
  solveBand(factor, z, n, width);
  if (stiff) {
    const rest = residual(equations, values, stride, offset, z, width);
    solveBand(factor, rest, n, width);
    for (let i = 0; i < z.length; i++) z[i]! += rest[i]!;
  }
  return z;
}

/**
 * Solves in place, row k of `z` at `(k + 3)·width`. The number that was made last is taken away last, so that no step waits
 * for more of the one before than it must.
 */
function solveBand(factor: Float64Array, z: Float64Array, n: number, width: number): void {
  const two = 2 * width;
  const three = 3 * width;
  for (let k = 0, i = three; k < n; k++) {
    const b = k * 4;
    const l1 = factor[b + 1]!;
    const l2 = factor[b + 2]!;
    const l3 = factor[b + 3]!;
    for (const end = i + width; i < end; i++) z[i] = z[i]! - l3 * z[i - three]! - l2 * z[i - two]! - l1 * z[i - width]!;
  }
  for (let k = n - 1; k >= 0; k--) {
    const b = k * 4;
    const inverse = factor[b]!;
    // L transposed: the first number of the row below, the second of the one below that, the third of the next
    const l1 = factor[b + 5]!;
    const l2 = factor[b + 10]!;
    const l3 = factor[b + 15]!;
    const start = (k + ROOM) * width;
    for (let i = start; i < start + width; i++) {
      z[i] = z[i]! * inverse - l3 * z[i + three]! - l2 * z[i + two]! - l1 * z[i + width]!;
    }
  }
}

/** W·(y - z) - (rows)ᵀ·(rows)·z, from the differences themselves: far more exact than the assembled matrix. */
function residual(
  { weight, roughness: { n, order, rows } }: PenalisedFactor, values: Float64Array, stride: number, offset: number, z: Float64Array,
  width: number,
): Float64Array {
  const rest = new Float64Array(z.length);
  const terms = order + 1;
  for (let c = 0; c < width; c++) {
    for (let k = 0; k < n; k++) {
      const at = (k + ROOM) * width + c;
      rest[at] = weight[k]! * (values[offset + k * stride + c]! - z[at]!);
    }
    for (let r = 0; r + order < n; r++) {
      let rough = 0;
      for (let j = 0; j < terms; j++) rough += rows[r * terms + j]! * z[(r + j + ROOM) * width + c]!;
      for (let j = 0; j < terms; j++) rest[(r + j + ROOM) * width + c]! -= rows[r * terms + j]! * rough;
    }
  }
  return rest;
}
