/**
 * One turn shared over several joints in a row: a spine of four beads, a neck of two, where the footage shows only how the
 * ends stand to each other.
 */
import { conjugate, fromRotationVector, IDENTITY, multiply, power, rotationVector, type Quat } from '../../numeric/quaternion.ts';

/**
 * The parts of a turn, one for each weight. All parts turn about the same axis, so they may be put together in any order
 * and give the whole turn again; no part turns farther than its share.
 *
 * @param q the whole turn, the last segment relative to the first; turned the shorter way round
 * @param weights n shares, none negative; only their ratios count. All zero shares alike.
 */
export function shareTurn(q: Quat, weights: readonly number[]): Quat[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => (sum > 0 ? power(q, weight / sum) : power(q, 1 / weights.length)));
}

/** Weights of bending (about Z), of bending sideways (about X) and of twisting (about Y) for each of n joints. */
export interface PartWeights {
  readonly bend: readonly number[];
  readonly side: readonly number[];
  readonly twist: readonly number[];
}

/**
 * The same with different shares of bend, side-bend and twist: people bend low in the back and twist high. The whole
 * turn's rotation vector is shared part by part. Turns about different axes don't quite add up; what is lacking in the end
 * goes to the last joint.
 *
 * @returns n turns whose product, first to last, is q exactly
 */
export function shareTurnByPart(q: Quat, weights: PartWeights): Quat[] {
  const [x, y, z] = rotationVector(q);
  const n = weights.bend.length;
  const share = (of: readonly number[], k: number): number => {
    const sum = of.reduce((total, weight) => total + weight, 0);
    return sum > 0 ? of[k]! / sum : 1 / n;
  };
  const parts: Quat[] = [];
  let soFar: Quat = IDENTITY;
  for (let k = 0; k < n; k++) {
    const own = k < n - 1
      ? fromRotationVector([x * share(weights.side, k), y * share(weights.twist, k), z * share(weights.bend, k)])
      : multiply(conjugate(soFar), q);
    parts.push(own);
    soFar = multiply(soFar, own);
  }
  return parts;
}
