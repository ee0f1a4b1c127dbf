/**
 * Errors of many clips, sorted: moving, still, unsure.
 */
import type { ErrorSeries } from './errorSeries.ts';
import type { MeasureClass } from './measures.ts';

export interface Rms {
  /** Root mean square, degrees; NaN of nothing. */
  readonly rms: number;
  readonly bias: number;
  readonly n: number;
}

export interface Tally {
  /** Not flagged. */
  readonly moving: Rms;
  readonly still: Rms;
  /** Flagged, moving or not. */
  readonly unsure: Rms;
  /** All values, flagged or not. */
  readonly all: Rms;
  /** Share of values that are flagged. */
  readonly unsureShare: number;
}

export function rmsOf(errors: readonly number[]): Rms {
  const known = errors.filter(Number.isFinite);
  const mean = (pick: (e: number) => number): number => known.reduce((sum, e) => sum + pick(e), 0) / known.length;
  return { rms: Math.sqrt(mean((e) => e * e)), bias: mean((e) => e), n: known.length };
}

/** @param series of all clips that count @param classes taken together */
export function tally(series: readonly ErrorSeries[], classes: readonly MeasureClass[]): Tally {
  const moving: number[] = [];
  const still: number[] = [];
  const unsure: number[] = [];
  for (const one of series) {
    if (!classes.includes(one.measureClass)) continue;
    one.errorDeg.forEach((error, frame) => {
      const list = one.unsure[frame] === true ? unsure : one.moving[frame] === true ? moving : still;
      list.push(error);
    });
  }
  const all = [...moving, ...still, ...unsure];
  return { moving: rmsOf(moving), still: rmsOf(still), unsure: rmsOf(unsure), all: rmsOf(all), unsureShare: unsure.length / all.length };
}
