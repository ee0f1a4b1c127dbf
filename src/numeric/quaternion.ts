/**
 * Unit quaternions `[w, x, y, z]` as small tuples. A quaternion turns vectors of the child's axes into the parent's;
 * `multiply(a, b)` is "first b, then a", so a chain reads from the root outward.
 *
 * No function here ever takes a bare acos: near 0 and 180° it loses half its digits, and a product that rounds above 1
 * would make NaN.
 */
import { add, cross, dot, length, unit, type Vec3 } from './vector3.ts';

export type Quat = readonly [number, number, number, number];

export const IDENTITY: Quat = [1, 0, 0, 0];

/** Reads element `index` of an array of quaternions `[n·4]`. */
export function readQuat(series: ArrayLike<number>, index: number): Quat {
  const at = index * 4;
  return [
    series[at] ?? Number.NaN, series[at + 1] ?? Number.NaN, series[at + 2] ?? Number.NaN, series[at + 3] ?? Number.NaN,
  ];
}

/** Writes a quaternion as element `index` of an array of quaternions `[n·4]`. */
export function writeQuat(series: Float64Array, index: number, q: Quat): void {
  const at = index * 4;
  series[at] = q[0];
  series[at + 1] = q[1];
  series[at + 2] = q[2];
  series[at + 3] = q[3];
}

/** Hamilton product a·b: the turn b followed by the turn a. */
export function multiply(a: Quat, b: Quat): Quat {
  return [
    a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3],
    a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2],
    a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1],
    a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0],
  ];
}

/** The reverse turn of a unit quaternion. */
export function conjugate(q: Quat): Quat {
  return [q[0], -q[1], -q[2], -q[3]];
}

/** The same turn written with the other sign. */
export function negate(q: Quat): Quat {
  return [-q[0], -q[1], -q[2], -q[3]];
}

/** Made exactly one long; a quaternion too short to have a direction becomes the identity. */
export function normalise(q: Quat): Quat {
  const size = Math.sqrt(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3]);
  if (!(size > 1e-12)) return IDENTITY;
  return [q[0] / size, q[1] / size, q[2] / size, q[3] / size];
}

/** The vector turned by the unit quaternion: from the child's axes into the parent's. */
export function rotate(q: Quat, v: Vec3): Vec3 {
  // v + 2w(u × v) + 2u × (u × v), with u the quaternion's vector part
  const [w, x, y, z] = q;
  const tx = 2 * (y * v[2] - z * v[1]);
  const ty = 2 * (z * v[0] - x * v[2]);
  const tz = 2 * (x * v[1] - y * v[0]);
  return [
    v[0] + w * tx + y * tz - z * ty,
    v[1] + w * ty + z * tx - x * tz,
    v[2] + w * tz + x * ty - y * tx,
  ];
}

/** Turn by `angleRad` about a unit axis, right-handed. */
export function fromAxisAngle(axis: Vec3, angleRad: number): Quat {
  const s = Math.sin(angleRad / 2);
  // + 0 turns a minus zero into a plain one, which files and comparisons would otherwise show
  return [Math.cos(angleRad / 2), axis[0] * s + 0, axis[1] * s + 0, axis[2] * s + 0];
}

/**
 * Turn whose child axes are the given right-handed orthonormal vectors, told in the parent's axes (columns of the
 * rotation matrix). Divides by the largest of the four components, so it is exact for half turns too
 * (Shepperd 1978, J. Guidance and Control 1:223-224; citation from memory).
 */
export function fromBasis(x: Vec3, y: Vec3, z: Vec3): Quat {
  const trace = x[0] + y[1] + z[2];
  let q: Quat;
  if (trace >= x[0] && trace >= y[1] && trace >= z[2]) {
    q = [1 + trace, y[2] - z[1], z[0] - x[2], x[1] - y[0]];
  } else if (x[0] >= y[1] && x[0] >= z[2]) {
    q = [y[2] - z[1], 1 + x[0] - y[1] - z[2], x[1] + y[0], z[0] + x[2]];
  } else if (y[1] >= z[2]) {
    q = [z[0] - x[2], x[1] + y[0], 1 + y[1] - z[2] - x[0], y[2] + z[1]];
  } else {
    q = [x[1] - y[0], z[0] + x[2], y[2] + z[1], 1 + z[2] - x[0] - y[1]];
  }
  return normalise(q);
}

/** Smallest turn that carries the unit vector `from` onto the unit vector `to`; for opposite vectors one of the half turns. */
export function shortestArc(from: Vec3, to: Vec3): Quat {
  // half the square of the sum is 1 + cos, without the digits that the subtraction would lose near opposite vectors
  const sum = add(from, to);
  const w = dot(sum, sum) / 2;
  if (w < 1e-16) {
    const helper: Vec3 = Math.abs(from[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
    const axis = unit(cross(from, helper)) ?? [0, 0, 1];
    return [0, axis[0], axis[1], axis[2]];
  }
  const c = cross(from, to);
  return normalise([w, c[0], c[1], c[2]]);
}

/** Length of the vector part. (Math.hypot would guard against overflow that unit numbers can't have, at many times the cost.) */
function vectorSize(q: Quat): number {
  return Math.sqrt(q[1] * q[1] + q[2] * q[2] + q[3] * q[3]);
}

/** Size of the smallest turn that takes one orientation to the other, radians in 0..π; the signs of a and b do not matter. */
export function angleBetween(a: Quat, b: Quat): number {
  const d = multiply(conjugate(a), b);
  return 2 * Math.atan2(vectorSize(d), Math.abs(d[0]));
}

/** Size of the turn from rest, radians in 0..π. */
export function angleOf(q: Quat): number {
  return 2 * Math.atan2(vectorSize(q), Math.abs(q[0]));
}

/**
 * Rotation vector (axis times angle, radians, length 0..π) of the shorter way round; twice the logarithm.
 * At exactly half a turn either direction of the axis is right, and the one written in the quaternion is taken.
 */
export function rotationVector(q: Quat): Vec3 {
  const sign = q[0] < 0 ? -1 : 1;
  const size = vectorSize(q);
  // below this size the angle is the sine to the last digit
  const factor = size < 1e-10 ? 2 * sign : (sign * 2 * Math.atan2(size, sign * q[0])) / size;
  return [q[1] * factor, q[2] * factor, q[3] * factor];
}

/** Inverse of {@link rotationVector}. */
export function fromRotationVector(v: Vec3): Quat {
  const angle = length(v);
  const factor = angle < 1e-10 ? 0.5 : Math.sin(angle / 2) / angle;
  return [Math.cos(angle / 2), v[0] * factor, v[1] * factor, v[2] * factor];
}

/** The part `share` (0..1, but any number will do) of a turn, the shorter way round. */
export function power(q: Quat, share: number): Quat {
  const v = rotationVector(q);
  return fromRotationVector([v[0] * share, v[1] * share, v[2] * share]);
}

/** Spherical interpolation from a (u = 0) to b (u = 1), the shorter way round, at constant speed. */
export function slerp(a: Quat, b: Quat, u: number): Quat {
  return multiply(a, power(multiply(conjugate(a), b), u));
}

/**
 * Part of a turn about one of the child's own axes (1 = x, 2 = y, 3 = z): the twist of `q = swing · twist`, as signed
 * radians in -π..π. Where the swing is exactly half a turn there is no twist to be told, and 0 is returned.
 */
export function twistAngle(q: Quat, axis: 1 | 2 | 3): number {
  const w = q[0] < 0 ? -q[0] : q[0];
  const along = q[0] < 0 ? -q[axis] : q[axis];
  return w < 1e-12 && Math.abs(along) < 1e-12 ? 0 : 2 * Math.atan2(along, w);
}
