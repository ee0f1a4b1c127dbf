/**
 * Between moments of the take and rows of the ladder: row 0 is the middle of the first step. Steps need not be evenly spaced
 * in the take, and several may show one moment of it.
 */
import type { Plan } from '../../plan/plan.ts';

type Timed = Pick<Plan, 'sourceTimeS' | 'stepCount'>;

/**
 * Row (fractional) of a moment of the take; of several rows that show it the first, beyond both ends as far as their own
 * spacing says.
 */
export function rowOfTime({ sourceTimeS, stepCount }: Timed, timeS: number): number {
  const last = stepCount - 1;
  if (last < 1) return 0;
  let low = 0;
  let high = last + 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sourceTimeS[middle]! < timeS) low = middle + 1;
    else high = middle;
  }
  // the two steps on whose line the moment stands
  const to = Math.max(1, Math.min(last, low));
  return between(sourceTimeS, to, timeS);
}

function between(sourceTimeS: Float64Array, to: number, timeS: number): number {
  const [a, b] = [sourceTimeS[to - 1]!, sourceTimeS[to]!];
  // a hold at an end has no spacing of its own
  if (a === b) return timeS < a ? to - 1 : to;
  return to - 1 + (timeS - a) / (b - a);
}

/** Moment of the take at a row (fractional), beyond both ends as far as their own spacing says. */
export function timeOfRow({ sourceTimeS, stepCount }: Timed, row: number): number {
  const last = stepCount - 1;
  if (last < 1) return sourceTimeS[0] ?? 0;
  const from = Math.max(0, Math.min(last - 1, Math.floor(row)));
  const [a, b] = [sourceTimeS[from]!, sourceTimeS[from + 1]!];
  return a + (row - from) * (b - a);
}

/** Runs of steps that show one moment of the take: the first and the last of each. */
export function heldRows({ sourceTimeS, stepCount }: Timed): readonly (readonly [first: number, last: number])[] {
  const out: [number, number][] = [];
  for (let s = 0; s < stepCount; s += 1) {
    const first = s;
    while (s + 1 < stepCount && sourceTimeS[s + 1] === sourceTimeS[first]) s += 1;
    if (s > first) out.push([first, s]);
  }
  return out;
}

/** Seconds of the take from a step to the next, where they are fewest and the take goes on; 0 for a plan of one step. */
export function leastStepS({ sourceTimeS, stepCount }: Timed): number {
  let least = Infinity;
  for (let s = 1; s < stepCount; s += 1) {
    const by = sourceTimeS[s]! - sourceTimeS[s - 1]!;
    if (by > 1e-6 && by < least) least = by;
  }
  return Number.isFinite(least) ? least : 0;
}
