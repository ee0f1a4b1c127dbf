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
import { conjugate, fromRotationVector, multiply, readQuat, rotationVector, type Quat } from './quaternion.ts';
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

/** Numbers of a piece of the curve in a row of pieces. */
export const SQUAD_PIECE = 10;

/**
 * The curve between knot k and knot k + 1 of a run as numbers that are the same for every moment between them, to be read
 * with {@link alongSquad}: the mean angular velocity (3), the inner point beside q0 (4), the turn from it to the one beside q1 (3).
 *
 * With mean velocity m over the interval h and velocities v0, v1 at its ends, the inner points of
 * squad(u) = slerp(slerp(q0, q1, u), slerp(a, b, u), 2u(1 - u)) that give those end velocities are
 * a = q0·exp(h(v0 - m)/2) and b = q1·exp(h(m - v1)/2); for even times and mean speeds this is the textbook form.
 *
 * @param k knot with from ≤ k < to
 * @param pieces `[…·SQUAD_PIECE]`, piece `at` is written
 */
export function writeSquadPiece(run: QuatRun, k: number, pieces: Float64Array, at: number): void {
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
  pieces.set([...mean, ...a, ...rotationVector(multiply(conjugate(a), b))], at * SQUAD_PIECE);
}

const scratch = new Float64Array(12);

/** scratch[to…] = the quaternion (w, x, y, z) followed on its right by the turn of the rotation vector (u, v, t). */
function turned(w: number, x: number, y: number, z: number, u: number, v: number, t: number, to: number): void {
  const angle = Math.sqrt(u * u + v * v + t * t);
  const by = angle < 1e-10 ? 0.5 : Math.sin(angle / 2) / angle;
  const c = Math.cos(angle / 2);
  const p = u * by;
  const q = v * by;
  const r = t * by;
  scratch[to] = w * c - x * p - y * q - z * r;
  scratch[to + 1] = w * p + x * c + y * r - z * q;
  scratch[to + 2] = w * q - x * r + y * c + z * p;
  scratch[to + 3] = w * r + x * q - y * p + z * c;
}

/**
 * One moment inside a piece, in plain numbers: every timing of a take reads tens of thousands of them.
 *
 * @param values quaternion q0 is read at `from`
 * @param pieces of {@link writeSquadPiece}; @param at which piece
 * @param h length of the interval; @param u 0..1 of it, the ends not included
 * @param out the quaternion is written at `to`
 */
export function alongSquad(
  values: ArrayLike<number>, from: number, pieces: Float64Array, at: number, h: number, u: number, out: Float64Array, to: number,
): void {
  const k = at * SQUAD_PIECE;
  const along = h * u;
  turned(values[from]!, values[from + 1]!, values[from + 2]!, values[from + 3]!, pieces[k]! * along, pieces[k + 1]! * along, pieces[k + 2]! * along, 0);
  turned(pieces[k + 3]!, pieces[k + 4]!, pieces[k + 5]!, pieces[k + 6]!, pieces[k + 7]! * u, pieces[k + 8]! * u, pieces[k + 9]! * u, 4);
  const w = scratch[0]!;
  const x = scratch[1]!;
  const y = scratch[2]!;
  const z = scratch[3]!;
  const bw = scratch[4]!;
  const bx = scratch[5]!;
  const by = scratch[6]!;
  const bz = scratch[7]!;
  // what is left of the way from the straight turn to the bowed one, as a rotation vector
  const dw = w * bw + x * bx + y * by + z * bz;
  const dx = w * bx - x * bw - y * bz + z * by;
  const dy = w * by + x * bz - y * bw - z * bx;
  const dz = w * bz - x * by + y * bx - z * bw;
  const sign = dw < 0 ? -1 : 1;
  const size = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const share = size < 1e-10 ? 2 * sign : (sign * 2 * Math.atan2(size, sign * dw)) / size;
  const bow = 2 * u * (1 - u);
  turned(w, x, y, z, dx * share * bow, dy * share * bow, dz * share * bow, 8);
  out[to] = scratch[8]!;
  out[to + 1] = scratch[9]!;
  out[to + 2] = scratch[10]!;
  out[to + 3] = scratch[11]!;
}

/**
 * One moment of the curve between knot k and knot k + 1 of a run.
 *
 * @param k knot with from ≤ k < to
 * @param u 0..1 of the interval
 */
export function squadBetween(run: QuatRun, k: number, u: number): Quat {
  if (u <= 0) return knot(run, k);
  if (u >= 1) return knot(run, k + 1);
  const piece = new Float64Array(SQUAD_PIECE);
  const out = new Float64Array(4);
  writeSquadPiece(run, k, piece, 0);
  alongSquad(run.values, run.offset + k * run.stride, piece, 0, run.timesS[k + 1]! - run.timesS[k]!, u, out, 0);
  return readQuat(out, 0);
}
