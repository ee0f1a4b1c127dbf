/** Between moments of the film and rows of the ladder, also between steps and beyond the last one. */
import type { Plan } from '../../../../plan/plan.ts';

type Timed = Pick<Plan, 'stepCount' | 'exposure' | 'holds' | 'rate'>;

/** Row (with its fraction) at whose middle a moment of the film stands. */
export function rowOfFilm({ stepCount, exposure, holds, rate }: Timed, filmS: number): number {
  if (stepCount === 0) return 0;
  const at = filmS * rate + 1;
  let low = 0;
  let high = stepCount - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (exposure[middle]! <= at + 1e-6) low = middle;
    else high = middle - 1;
  }
  return low + (at - exposure[low]!) / holds[low]!;
}

/** Moment of the film at a height over the rows, px from the top of the first; its exposures divide a row alike. */
export function filmAtY({ stepCount, exposure, holds, rate }: Timed, rowPx: number, yPx: number): number {
  if (stepCount === 0) return 0;
  const row = yPx / rowPx - 0.5;
  const index = Math.min(stepCount - 1, Math.max(0, Math.floor(row)));
  return (exposure[index]! - 1 + (row - index) * holds[index]!) / rate;
}
