/**
 * One stretch smoothed by the dual-pass Butterworth (`numeric/butterworth.ts`). Frames that come evenly are filtered as they
 * are; uneven ones are carried onto an even grid with PCHIP, filtered there, and carried back to their own times.
 */
import { butterworthLowPass, DEFAULT_PAD, filtfiltPadded } from '../numeric/butterworth.ts';
import { pchip } from '../numeric/pchip.ts';
import type { EvenGrid } from './evenGrid.ts';
import type { Pass } from './smoothing.ts';

/** Fewest frames of a stretch: the filter needs as many beside it as it adds at an end. */
export const BUTTERWORTH_NEEDS = DEFAULT_PAD + 1;

/** @param frameS times of the stretch, {@link BUTTERWORTH_NEEDS} or more */
export function butterworthPass(frameS: Float64Array, { sampleHz, gridS }: EvenGrid, cutoffHz: number): Pass['smooth'] {
  const filter = butterworthLowPass(sampleHz, cutoffHz, 2);
  const frames = frameS.length;
  const n = gridS?.length ?? frames;
  // Long enough for the start state to have died away before the first real frame: two periods of the cut-off.
  const padLength = Math.min(n - 1, Math.max(DEFAULT_PAD, Math.ceil((2 * sampleHz) / cutoffHz)));
  const work = new Float64Array(n + 2 * padLength);
  const inner = work.subarray(padLength, padLength + n);
  const smoothOne = (values: Float64Array, first: number, stride: number): void => {
    if (gridS === null) {
      for (let k = 0; k < frames; k++) inner[k] = values[first + k * stride]!;
      filtfiltPadded(work, n, filter, padLength);
      for (let k = 0; k < frames; k++) values[first + k * stride] = inner[k]!;
      return;
    }
    const onFrames = Float64Array.from(frameS, (_, k) => values[first + k * stride]!);
    inner.set(pchip(frameS, onFrames, gridS));
    filtfiltPadded(work, n, filter, padLength);
    pchip(gridS, inner, frameS).forEach((value, k) => { values[first + k * stride] = value; });
  };
  return (values, first, stride, width) => {
    for (let c = 0; c < width; c++) smoothOne(values, first + c, stride);
  };
}
