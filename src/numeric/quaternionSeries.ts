/**
 * Quaternions over time: one sign all along, and a smooth curve through the knots.
 *
 * The curve is the spherical "quadrangle" curve (squad; Shoemake, SIGGRAPH 1985 and 1987 course notes, citation from
 * memory), with the inner points derived here for uneven times and given speeds at the knots. The speeds follow
 * Fritsch and Butland's rule, axis by axis in the knot's own axes, so that
 * - the curve passes through every knot exactly and has no kink there,
 * - a pose that is held stays held (speeds taken as plain means would swing out before and after a hold),
 * - a turn about one fixed axis is exactly what PCHIP makes of its angle, so balls and hinges move alike.
 */
import { pchipEndSlope, pchipInnerSlope } from './pchip.ts';
import { conjugate, fromRotationVector, multiply, rotationVector, slerp, type Quat } from './quaternion.ts';
import type { Vec3 } from './vector3.ts';

/**
 * Chooses the sign of every quaternion of one series so that neighbours lie on the same side; the first one known gets
 * w ≥ 0. Unknown entries (NaN) are skipped, the sign carries on behind them. Changes the array in place.
 *
 * @param series quaternions w, x, y, z; entry k of the series starts at `offset + k·stride`
 */
export function makeSignContinuous(series: Float64Array, count: number, stride: number, offset: number): void {
  let w = 1;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let k = 0; k < count; k++) {
    const at = offset + k * stride;
    const qw = series[at]!;
    const qx = series[at + 1]!;
    const qy = series[at + 2]!;
    const qz = series[at + 3]!;
    if (Number.isNaN(qw)) continue;
    const flip = w * qw + x * qx + y * qy + z * qz < 0 ? -1 : 1;
    w = flip * qw;
    x = flip * qx;
    y = flip * qy;
    z = flip * qz;
    series[at] = w;
    series[at + 1] = x;
    series[at + 2] = y;
    series[at + 3] = z;
  }
}

/** A run of known knots in a typed array: knot k starts at `offset + k·stride`; knots `from`..`to` (inclusive) are usable. */
export interface QuatRun {
  readonly timesS: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  readonly stride: number;
  readonly offset: number;
  readonly from: number;
  readonly to: number;
}

function knot(run: QuatRun, k: number): Quat {
  const at = run.offset + k * run.stride;
  return [run.values[at]!, run.values[at + 1]!, run.values[at + 2]!, run.values[at + 3]!];
}

/**
 * Mean angular velocity from knot k to the next, rad/s. The rotation vector between two orientations reads the same in
 * the axes of either, so this serves both ends.
 */
function meanVelocity(run: QuatRun, k: number): Vec3 {
  const step = rotationVector(multiply(conjugate(knot(run, k)), knot(run, k + 1)));
  const h = run.timesS[k + 1]! - run.timesS[k]!;
  return [step[0] / h, step[1] / h, step[2] / h];
}

/** Angular velocity of the curve at knot k, rad/s, in the knot's own axes. */
function knotVelocity(run: QuatRun, k: number): Vec3 {
  const { from, to, timesS } = run;
  if (from === to) return [0, 0, 0];
  if (k > from && k < to) {
    const before = meanVelocity(run, k - 1);
    const after = meanVelocity(run, k);
    const hBefore = timesS[k]! - timesS[k - 1]!;
    const hAfter = timesS[k + 1]! - timesS[k]!;
    return [
      pchipInnerSlope(hBefore, hAfter, before[0], after[0]),
      pchipInnerSlope(hBefore, hAfter, before[1], after[1]),
      pchipInnerSlope(hBefore, hAfter, before[2], after[2]),
    ];
  }
  const atStart = k === from;
  const near = meanVelocity(run, atStart ? k : k - 1);
  if (to - from < 2) return near;
  // The farther turn is told in axes one knot away; at an end, where the speed is only a guess, that is good enough.
  const far = meanVelocity(run, atStart ? k + 1 : k - 2);
  const hNear = atStart ? timesS[k + 1]! - timesS[k]! : timesS[k]! - timesS[k - 1]!;
  const hFar = atStart ? timesS[k + 2]! - timesS[k + 1]! : timesS[k - 1]! - timesS[k - 2]!;
  return [
    pchipEndSlope(hNear, hFar, near[0], far[0]),
    pchipEndSlope(hNear, hFar, near[1], far[1]),
    pchipEndSlope(hNear, hFar, near[2], far[2]),
  ];
}

/** exp of half the difference of two velocities over a time: the inner point of squad, relative to its knot. */
function innerPoint(q: Quat, a: Vec3, b: Vec3, hS: number): Quat {
  const f = hS / 2;
  return multiply(q, fromRotationVector([(a[0] - b[0]) * f, (a[1] - b[1]) * f, (a[2] - b[2]) * f]));
}

/**
 * The curve between knot k and knot k + 1 of a run.
 *
 * With mean velocity m over the interval h and velocities v0, v1 at its ends, the inner points of
 * squad(u) = slerp(slerp(q0, q1, u), slerp(a, b, u), 2u(1 - u)) that give those end velocities are
 * a = q0·exp(h(v0 - m)/2) and b = q1·exp(h(m - v1)/2); for even times and mean speeds this is the textbook form.
 *
 * @param k knot with from ≤ k < to
 * @param u 0..1 of the interval
 */
export function squadBetween(run: QuatRun, k: number, u: number): Quat {
  const q0 = knot(run, k);
  if (u <= 0) return q0;
  const q1 = knot(run, k + 1);
  if (u >= 1) return q1;
  const h = run.timesS[k + 1]! - run.timesS[k]!;
  const mean = meanVelocity(run, k);
  const a = innerPoint(q0, knotVelocity(run, k), mean, h);
  const b = innerPoint(q1, mean, knotVelocity(run, k + 1), h);
  return slerp(slerp(q0, q1, u), slerp(a, b, u), 2 * u * (1 - u));
}
