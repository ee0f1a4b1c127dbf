/**
 * Angular velocity of an orientation over time, from rotation vectors and never from differences of angles or of
 * quaternions: exact where the rate is constant, whatever its axis and however far apart the knots (up to half a turn).
 */
import { conjugate, multiply, rotate, rotationVector, type Quat } from './quaternion.ts';
import type { QuatRun } from './quaternionSeries.ts';

/**
 * Angular velocities at the knots of a run, rad/s, in the axes of the parent.
 *
 * Inside, the mean velocities before and behind a knot weighed by the other's interval (the second-order rule for uneven
 * times; both read the same in the axes of the knot between them); at an end, the one mean velocity there is. A run of one
 * knot has velocity 0.
 *
 * @returns `[(to - from + 1)·3]`
 */
export function angularVelocities({ timesS, values, stride, offset, from, to }: QuatRun): Float64Array {
  const out = new Float64Array((to - from + 1) * 3);
  const knot = (k: number): Quat => {
    const at = offset + k * stride;
    return [values[at]!, values[at + 1]!, values[at + 2]!, values[at + 3]!];
  };
  const means = new Float64Array(Math.max(0, to - from) * 3);
  for (let k = from; k < to; k++) {
    const h = timesS[k + 1]! - timesS[k]!;
    means.set(rotationVector(multiply(conjugate(knot(k)), knot(k + 1))).map((v) => v / h), (k - from) * 3);
  }
  for (let k = from; k <= to && from < to; k++) {
    const before = k > from ? timesS[k]! - timesS[k - 1]! : 0;
    const after = k < to ? timesS[k + 1]! - timesS[k]! : 0;
    // an interval that is not there leaves all the weight to the other one
    const share = k === from ? 1 : k === to ? 0 : before / (before + after);
    const part = (c: number): number =>
      (share > 0 ? share * means[(k - from) * 3 + c]! : 0) + (share < 1 ? (1 - share) * means[(k - from - 1) * 3 + c]! : 0);
    out.set(rotate(knot(k), [part(0), part(1), part(2)]), (k - from) * 3);
  }
  return out;
}
