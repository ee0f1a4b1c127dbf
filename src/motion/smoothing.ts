/**
 * Takes the jitter out of positions without moving anything in time: dual-pass Butterworth, run on each unbroken stretch
 * by itself, on positions and never on angles (an angle that wraps can't be filtered).
 *
 * Frames that come evenly are filtered as they are. Uneven ones are carried onto an even grid at the stretch's median
 * interval with PCHIP, filtered there, and carried back to their own times.
 */
import { butterworthLowPass, DEFAULT_PAD, filtfiltPadded, type Biquad } from '../numeric/butterworth.ts';
import { pchip } from '../numeric/pchip.ts';
import type { Stretch } from './gaps.ts';

/**
 * A cut-off must stay below this part of the frame rate. At half of it (Nyquist) the filter does nothing; a little below
 * it the correction for two passes runs away. Our choice.
 */
export const HIGHEST_CUTOFF = 0.45;

/**
 * How far a frame may lie from its place on an even grid, as a part of the interval, and still count as even. Containers
 * round times to their ticks (1 ms in WebM: 6 % at 60 frames a second); the camera's own clock is evener than that.
 */
const EVEN_WITHIN = 0.1;

/** How one stretch is smoothed. */
interface Pass {
  readonly stretch: Stretch;
  readonly filter: Biquad;
  readonly padLength: number;
  /** Times of the even grid, or `null` where the frames are even already. */
  readonly gridS: Float64Array | null;
  readonly frameS: Float64Array;
}

export interface SmoothingPlan {
  readonly passes: readonly Pass[];
  /** Cut-off used, Hz of the performer's time; `null` when nothing is smoothed. */
  readonly usedCutoffHz: number | null;
  readonly warnings: readonly string[];
}

/**
 * Decides what can be smoothed.
 *
 * @param performerS T times of the performer's own clock, seconds
 * @param cutoffHz gain 1/√2 at this frequency of the performer's time; 0 for none
 */
export function planSmoothing(performerS: Float64Array, stretches: readonly Stretch[], cutoffHz: number): SmoothingPlan {
  if (cutoffHz <= 0) return { passes: [], usedCutoffHz: null, warnings: [] };
  const passes: Pass[] = [];
  let tooSlow = 0;
  let tooShort = 0;
  let slowestHz = Number.POSITIVE_INFINITY;
  for (const stretch of stretches) {
    const frameS = performerS.subarray(stretch.from, stretch.to + 1);
    if (frameS.length <= DEFAULT_PAD) {
      tooShort++;
      continue;
    }
    const { sampleHz, gridS } = layOut(frameS);
    if (cutoffHz >= HIGHEST_CUTOFF * sampleHz) {
      tooSlow++;
      slowestHz = Math.min(slowestHz, sampleHz);
      continue;
    }
    const n = gridS?.length ?? frameS.length;
    // Long enough for the start state to have died away before the first real frame: two periods of the cut-off.
    const padLength = Math.min(n - 1, Math.max(DEFAULT_PAD, Math.ceil((2 * sampleHz) / cutoffHz)));
    passes.push({ stretch, filter: butterworthLowPass(sampleHz, cutoffHz, 2), padLength, gridS, frameS });
  }
  const warnings: string[] = [];
  if (tooSlow > 0) {
    warnings.push(
      `Not smoothed: with ${slowestHz.toFixed(1)} frames a second of the performer’s time a cut-off of ${cutoffHz} Hz `
      + `is too high (it must lie below ${(HIGHEST_CUTOFF * slowestHz).toFixed(1)} Hz).`,
    );
  }
  if (tooShort > 0) {
    warnings.push(
      `Not smoothed: ${tooShort} ${tooShort === 1 ? 'stretch' : 'stretches'} of fewer than ${DEFAULT_PAD + 1} frames `
      + 'between gaps.',
    );
  }
  return { passes, usedCutoffHz: passes.length > 0 ? cutoffHz : null, warnings };
}

/**
 * Smooths some neighbouring series in every stretch, in place. (Neighbours are read together: a point's three coordinates
 * lie side by side, frames lie far apart in memory.)
 *
 * @param values sample t of series c lies at `t·stride + offset + c`
 * @param width number of series
 */
export function smoothSeries(plan: SmoothingPlan, values: Float64Array, stride: number, offset: number, width: number): void {
  for (const pass of plan.passes) {
    const { stretch, filter, padLength, gridS, frameS } = pass;
    const frames = frameS.length;
    const first = stretch.from * stride + offset;
    const n = gridS?.length ?? frames;
    const works = Array.from({ length: width }, () => new Float64Array(n + 2 * padLength));
    const onFrames: Float64Array[] = gridS === null
      ? works.map((work) => work.subarray(padLength, padLength + n))
      : works.map(() => new Float64Array(frames));
    for (let k = 0; k < frames; k++) for (let c = 0; c < width; c++) onFrames[c]![k] = values[first + k * stride + c]!;
    works.forEach((work, c) => {
      if (gridS !== null) work.set(pchip(frameS, onFrames[c]!, gridS), padLength);
      filtfiltPadded(work, n, filter, padLength);
      if (gridS !== null) onFrames[c] = pchip(gridS, work.subarray(padLength, padLength + n), frameS);
    });
    for (let k = 0; k < frames; k++) for (let c = 0; c < width; c++) values[first + k * stride + c] = onFrames[c]![k]!;
  }
}

/** Most samples that an uneven stretch is laid out on, as a multiple of its frames: a long hole must not fill the memory. */
const LARGEST_GRID = 20;

/** The even grid for a stretch (`null` where its frames are even already), and its samples a second. */
function layOut(frameS: Float64Array): { sampleHz: number; gridS: Float64Array | null } {
  const n = frameS.length;
  const first = frameS[0]!;
  const span = frameS[n - 1]! - first;
  const mean = span / (n - 1);
  let even = true;
  for (let k = 1; k < n && even; k++) even = Math.abs(frameS[k]! - first - k * mean) <= EVEN_WITHIN * mean;
  if (even) return { sampleHz: 1 / mean, gridS: null };
  const intervals = new Float64Array(n - 1);
  for (let k = 1; k < n; k++) intervals[k - 1] = frameS[k]! - frameS[k - 1]!;
  intervals.sort();
  // stretched to end on the last frame, so that both ends keep their own samples
  const steps = Math.min(Math.ceil(span / intervals[(n - 1) >> 1]! - 1e-9), LARGEST_GRID * n);
  const step = span / steps;
  return { sampleHz: 1 / step, gridS: Float64Array.from({ length: steps + 1 }, (_, k) => first + k * step) };
}
