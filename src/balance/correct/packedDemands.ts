/** Demands as plain numbers in a row, which are gone through thousands of times. */
import type { Demand } from './leastChange.ts';

/**
 * M demands on n numbers.
 * - those of demand j stand at `from[j]` to `from[j + 1]` (less one) of `at` and `a`, each place once. `c[M]`.
 * - `stiff[M]` Σ a²/w: how much of a demand a unit of its multiplier makes up.
 */
export interface PackedDemands {
  readonly count: number;
  readonly from: Int32Array;
  readonly at: Int32Array;
  readonly a: Float64Array;
  readonly c: Float64Array;
  readonly stiff: Float64Array;
}

/** A place that a demand names more than once counts with the sum. */
export function packDemands(weights: ArrayLike<number>, demands: readonly Demand[]): PackedDemands {
  const count = demands.length;
  const size = demands.reduce((sum, { at }) => sum + at.length, 0);
  const [from, at, a] = [new Int32Array(count + 1), new Int32Array(size), new Float64Array(size)];
  const stiff = new Float64Array(count);
  const placeOf = new Int32Array(weights.length).fill(-1);
  let end = 0;
  demands.forEach((demand, j) => {
    from[j] = end;
    for (let i = 0; i < demand.at.length; i++) {
      const place = demand.at[i]!;
      const known = placeOf[place]!;
      if (known >= from[j]!) {
        a[known]! += demand.a[i]!;
        continue;
      }
      placeOf[place] = end;
      at[end] = place;
      a[end] = demand.a[i]!;
      end++;
    }
    for (let i = from[j]!; i < end; i++) stiff[j]! += (a[i]! * a[i]!) / weights[at[i]!]!;
  });
  from[count] = end;
  return { count, from, at, a, c: Float64Array.from(demands, ({ c }) => c), stiff };
}

/** By how much a demand is not kept; below 0 it is kept with something over. */
export function lackOf({ from, at, a, c }: PackedDemands, j: number, q: Float64Array): number {
  let lack = c[j]!;
  for (let i = from[j]!; i < from[j + 1]!; i++) lack -= a[i]! * q[at[i]!]!;
  return lack;
}

/** Adds a demand, times something over the weights, to numbers. */
export function addDemand({ from, at, a }: PackedDemands, j: number, by: number, weights: ArrayLike<number>, into: Float64Array): void {
  for (let i = from[j]!; i < from[j + 1]!; i++) into[at[i]!]! += (by * a[i]!) / weights[at[i]!]!;
}

/** Σ a·x. */
export function demandTimes({ from, at, a }: PackedDemands, j: number, x: Float64Array): number {
  let sum = 0;
  for (let i = from[j]!; i < from[j + 1]!; i++) sum += a[i]! * x[at[i]!]!;
  return sum;
}
