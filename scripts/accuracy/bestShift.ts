/**
 * The lag of a whole curve: by how much it must be shifted to follow the truth best, whatever its height and offset.
 */
import { agreement, type Pair } from './agreement.ts';

/** Shifts tried, in frames, and how finely. */
const FARTHEST = 6;
const STEP = 0.1;

/** Value of a series between its samples, on a straight line; NaN outside. */
function between(values: ArrayLike<number>, at: number): number {
  const i = Math.floor(at);
  const share = at - i;
  if (i < 0 || i > values.length - 1) return Number.NaN;
  return share === 0 ? values[i]! : values[i]! * (1 - share) + (values[i + 1] ?? Number.NaN) * share;
}

/**
 * @param truth T true values, one a frame
 * @param measured T measured values, NaN where there is none
 * @returns frames by which the measured curve is late, where its correlation with the truth is highest; `null` where there is no such
 *   place within {@link FARTHEST} frames or a curve hardly varies
 */
export function bestShift(truth: ArrayLike<number>, measured: ArrayLike<number>): number | null {
  // The same frames for every shift, or the ends would decide.
  const frames = Array.from({ length: Math.max(0, truth.length - 2 * FARTHEST) }, (_, k) => k + FARTHEST);
  const count = Math.round(FARTHEST / STEP);
  let best: { readonly shift: number; readonly r: number } | undefined;
  for (let k = -count; k <= count; k += 1) {
    const shift = k * STEP;
    const pairs = frames.map((i): Pair => [truth[i]!, between(measured, i + shift)]);
    const r = agreement(pairs)?.correlation ?? null;
    if (r !== null && (best === undefined || r > best.r)) best = { shift, r };
  }
  if (best === undefined || Math.abs(best.shift) > FARTHEST - STEP / 2) return null;
  return best.shift;
}
