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

/**
 * The same for all series that lie side by side, entry k of series p at `(k·width + p)·4`, in one pass through the memory.
 *
 * @param series `[count·width·4]`, changed in place
 */
export function makeSignsContinuous(series: Float64Array, count: number, width: number): void {
  const last = new Float64Array(width * 4);
  for (let p = 0; p < width; p++) last[p * 4] = 1;
  for (let k = 0; k < count; k++) {
    for (let p = 0, at = k * width * 4; p < width; p++, at += 4) {
      const w = series[at]!;
      if (Number.isNaN(w)) continue;
      const by = p * 4;
      const x = series[at + 1]!;
      const y = series[at + 2]!;
      const z = series[at + 3]!;
      const flip = last[by]! * w + last[by + 1]! * x + last[by + 2]! * y + last[by + 3]! * z < 0 ? -1 : 1;
      series[at] = last[by] = flip * w;
      series[at + 1] = last[by + 1] = flip * x;
      series[at + 2] = last[by + 2] = flip * y;
      series[at + 3] = last[by + 3] = flip * z;
    }
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

/** Speed at an inner knot from the mean velocities before and behind it, axis by axis. */
function innerVelocity(hBefore: number, hAfter: number, before: Vec3, after: Vec3): Vec3 {
  return [
    pchipInnerSlope(hBefore, hAfter, before[0], after[0]),
    pchipInnerSlope(hBefore, hAfter, before[1], after[1]),
    pchipInnerSlope(hBefore, hAfter, before[2], after[2]),
  ];
}

/**
 * Speed at an end of the run from the nearest mean velocity and the one farther in. The farther turn is told in axes one
 * knot away; at an end, where the speed is only a guess, that is good enough.
 */
function endVelocity(hNear: number, hFar: number, near: Vec3, far: Vec3): Vec3 {
  return [
    pchipEndSlope(hNear, hFar, near[0], far[0]),
    pchipEndSlope(hNear, hFar, near[1], far[1]),
    pchipEndSlope(hNear, hFar, near[2], far[2]),
  ];
}

/** q·exp(f(a - b)): an inner point of squad, or a point on the way, relative to its knot. */
function displaced(q: Quat, a: Vec3, b: Vec3, f: number): Quat {
  return multiply(q, fromRotationVector([(a[0] - b[0]) * f, (a[1] - b[1]) * f, (a[2] - b[2]) * f]));
}

/** What of the curve between two knots is the same for every moment between them. */
export interface SquadPiece {
  readonly q0: Quat;
  readonly q1: Quat;
  /** The length of the interval, and the mean angular velocity over it. */
  readonly h: number;
  readonly mean: Vec3;
  /** The inner point beside q0, and the turn from it to the one beside q1. */
  readonly inner: Quat;
  readonly innerTurn: Vec3;
}

/**
 * The curve between knot k and knot k + 1 of a run, to be read with {@link alongSquad}.
 *
 * With mean velocity m over the interval h and velocities v0, v1 at its ends, the inner points of
 * squad(u) = slerp(slerp(q0, q1, u), slerp(a, b, u), 2u(1 - u)) that give those end velocities are
 * a = q0·exp(h(v0 - m)/2) and b = q1·exp(h(m - v1)/2); for even times and mean speeds this is the textbook form.
 *
 * @param k knot with from ≤ k < to
 */
export function squadPiece(run: QuatRun, k: number): SquadPiece {
  const q0 = knot(run, k);
  const q1 = knot(run, k + 1);
  const { from, to, timesS } = run;
  const h = timesS[k + 1]! - timesS[k]!;
  const mean = meanVelocity(run, k);
  const hBefore = k > from ? timesS[k]! - timesS[k - 1]! : 0;
  const hAfter = k + 1 < to ? timesS[k + 2]! - timesS[k + 1]! : 0;
  const before = k > from ? meanVelocity(run, k - 1) : undefined;
  const after = k + 1 < to ? meanVelocity(run, k + 1) : undefined;
  let v0 = mean;
  let v1 = mean;
  if (before !== undefined) v0 = innerVelocity(hBefore, h, before, mean);
  else if (after !== undefined) v0 = endVelocity(h, hAfter, mean, after);
  if (after !== undefined) v1 = innerVelocity(h, hAfter, mean, after);
  else if (before !== undefined) v1 = endVelocity(h, hBefore, mean, before);
  const a = displaced(q0, v0, mean, h / 2);
  const b = displaced(q1, mean, v1, h / 2);
  return { q0, q1, h, mean, inner: a, innerTurn: rotationVector(multiply(conjugate(a), b)) };
}

/** @param u 0..1 of the interval */
export function alongSquad({ q0, q1, h, mean, inner, innerTurn }: SquadPiece, u: number): Quat {
  if (u <= 0) return q0;
  if (u >= 1) return q1;
  const straight = multiply(q0, fromRotationVector([mean[0] * (h * u), mean[1] * (h * u), mean[2] * (h * u)]));
  const bowed = multiply(inner, fromRotationVector([innerTurn[0] * u, innerTurn[1] * u, innerTurn[2] * u]));
  return slerp(straight, bowed, 2 * u * (1 - u));
}

/**
 * One moment of the curve between knot k and knot k + 1 of a run.
 *
 * @param k knot with from ≤ k < to
 * @param u 0..1 of the interval
 */
export function squadBetween(run: QuatRun, k: number, u: number): Quat {
  return alongSquad(squadPiece(run, k), u);
}
