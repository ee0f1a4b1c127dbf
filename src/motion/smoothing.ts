/**
 * Takes the jitter out of positions without moving anything in time, on each unbroken stretch by itself, on positions and
 * never on angles (an angle that wraps can't be filtered). Two ways, with one knob: the cut-off, at which both keep 1/√2.
 * Which of them is the default and why: docs/smoothing.md.
 */
import { BUTTERWORTH_NEEDS, butterworthPass } from './butterworthPass.ts';
import { layOutGrid } from './evenGrid.ts';
import type { Stretch } from './gaps.ts';
import { PENALISED_NEEDS, penalisedPass } from './penalisedPass.ts';

export const SMOOTHERS = ['butterworth', 'penalised'] as const;
export type Smoother = (typeof SMOOTHERS)[number];

/**
 * A cut-off must stay below this part of the frame rate. At half of it (Nyquist) nothing is left to take away; a little below
 * it the Butterworth's correction for two passes runs away. Our choice.
 */
export const HIGHEST_CUTOFF = 0.45;

/** How one stretch is smoothed. */
export interface Pass {
  readonly stretch: Stretch;
  /**
   * Some neighbouring series, in place: frame k of the stretch lies at `first + k·stride + c` for c below `width`. `weights`
   * (one number for each frame of the stretch, 0..1) are how surely each was seen; the Butterworth can't use them.
   */
  readonly smooth: (values: Float64Array, first: number, stride: number, width: number, weights: Float64Array | null) => void;
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
export function planSmoothing(
  performerS: Float64Array, stretches: readonly Stretch[], cutoffHz: number, smoother: Smoother = 'butterworth',
): SmoothingPlan {
  if (cutoffHz <= 0) return { passes: [], usedCutoffHz: null, warnings: [] };
  const needs = smoother === 'butterworth' ? BUTTERWORTH_NEEDS : PENALISED_NEEDS;
  const passes: Pass[] = [];
  let tooSlow = 0;
  let tooShort = 0;
  let slowestHz = Number.POSITIVE_INFINITY;
  for (const stretch of stretches) {
    const frameS = performerS.subarray(stretch.from, stretch.to + 1);
    if (frameS.length < needs) {
      tooShort++;
      continue;
    }
    const grid = layOutGrid(frameS);
    if (cutoffHz >= HIGHEST_CUTOFF * grid.sampleHz) {
      tooSlow++;
      slowestHz = Math.min(slowestHz, grid.sampleHz);
      continue;
    }
    const smooth = smoother === 'butterworth' ? butterworthPass(frameS, grid, cutoffHz) : penalisedPass(frameS, cutoffHz);
    passes.push({ stretch, smooth });
  }
  const warnings: string[] = [];
  if (tooSlow > 0) {
    warnings.push(
      `Not smoothed: with ${slowestHz.toFixed(1)} frames a second of the performer’s time a cut-off of ${cutoffHz} Hz `
      + `is too high (it must lie below ${(HIGHEST_CUTOFF * slowestHz).toFixed(1)} Hz).`,
    );
  }
  if (tooShort > 0) {
    warnings.push(`Not smoothed: ${tooShort} ${tooShort === 1 ? 'stretch' : 'stretches'} of fewer than ${needs} frames between gaps.`);
  }
  return { passes, usedCutoffHz: passes.length > 0 ? cutoffHz : null, warnings };
}

/**
 * Smooths some neighbouring series in every stretch, in place.
 *
 * @param values sample t of series c lies at `t·stride + offset + c`
 * @param width number of series
 * @param weights `[T]` how surely each frame was seen, 0..1, for all of these series; `null` where nothing is known
 */
export function smoothSeries(
  plan: SmoothingPlan, values: Float64Array, stride: number, offset: number, width: number, weights: Float64Array | null = null,
): void {
  for (const { stretch, smooth } of plan.passes) {
    const own = weights?.subarray(stretch.from, stretch.to + 1) ?? null;
    smooth(values, stretch.from * stride + offset, stride, width, own);
  }
}
