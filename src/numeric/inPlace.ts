/**
 * Vectors and quaternions inside typed arrays, for the few loops that run over every joint of every frame: the same formulas
 * as `vector3.ts` and `quaternion.ts`, without making an object for each result.
 *
 * A pair (array, index of its first number) stands for one vector or quaternion; results go to the pair that comes last.
 * Everything is read before anything is written, so a result may replace one of the inputs.
 */
type Numbers = Float64Array;

/** to = a - b. */
export function subtractAt(a: Numbers, i: number, b: Numbers, j: number, to: Numbers, k: number): void {
  const x = a[i]! - b[j]!;
  const y = a[i + 1]! - b[j + 1]!;
  const z = a[i + 2]! - b[j + 2]!;
  to[k] = x;
  to[k + 1] = y;
  to[k + 2] = z;
}

/** Point half-way between two points. */
export function midpointAt(a: Numbers, i: number, b: Numbers, j: number, to: Numbers, k: number): void {
  const x = (a[i]! + b[j]!) / 2;
  const y = (a[i + 1]! + b[j + 1]!) / 2;
  const z = (a[i + 2]! + b[j + 2]!) / 2;
  to[k] = x;
  to[k + 1] = y;
  to[k + 2] = z;
}

export function scaleAt(a: Numbers, i: number, by: number, to: Numbers, k: number): void {
  to[k] = a[i]! * by;
  to[k + 1] = a[i + 1]! * by;
  to[k + 2] = a[i + 2]! * by;
}

export function dotAt(a: Numbers, i: number, b: Numbers, j: number): number {
  return a[i]! * b[j]! + a[i + 1]! * b[j + 1]! + a[i + 2]! * b[j + 2]!;
}

/** Right-handed cross product a × b. */
export function crossAt(a: Numbers, i: number, b: Numbers, j: number, to: Numbers, k: number): void {
  const x = a[i + 1]! * b[j + 2]! - a[i + 2]! * b[j + 1]!;
  const y = a[i + 2]! * b[j]! - a[i]! * b[j + 2]!;
  const z = a[i]! * b[j + 1]! - a[i + 1]! * b[j]!;
  to[k] = x;
  to[k + 1] = y;
  to[k + 2] = z;
}

/** The vector made one long; `false`, and nothing written, where it has no direction (limits as in `vector3.ts`). */
export function unitAt(a: Numbers, i: number, to: Numbers, k: number): boolean {
  const size = Math.sqrt(dotAt(a, i, a, i));
  if (!(size > 1e-9 && size < Number.POSITIVE_INFINITY)) return false;
  scaleAt(a, i, 1 / size, to, k);
  return true;
}

/** The part of `a` square to the unit vector `b`, made one long; `false`, and nothing written, where nothing is left. */
export function squareUnitAt(a: Numbers, i: number, b: Numbers, j: number, to: Numbers, k: number): boolean {
  const along = dotAt(a, i, b, j);
  const x = a[i]! - along * b[j]!;
  const y = a[i + 1]! - along * b[j + 1]!;
  const z = a[i + 2]! - along * b[j + 2]!;
  const size = Math.sqrt(x * x + y * y + z * z);
  if (!(size > 1e-9 && size < Number.POSITIVE_INFINITY)) return false;
  const by = 1 / size;
  to[k] = x * by;
  to[k + 1] = y * by;
  to[k + 2] = z * by;
  return true;
}

/** The vector turned by the unit quaternion q. */
export function rotateAt(q: Numbers, i: number, v: Numbers, j: number, to: Numbers, k: number): void {
  const w = q[i]!;
  const x = q[i + 1]!;
  const y = q[i + 2]!;
  const z = q[i + 3]!;
  const vx = v[j]!;
  const vy = v[j + 1]!;
  const vz = v[j + 2]!;
  const tx = 2 * (y * vz - z * vy);
  const ty = 2 * (z * vx - x * vz);
  const tz = 2 * (x * vy - y * vx);
  to[k] = vx + w * tx + y * tz - z * ty;
  to[k + 1] = vy + w * ty + z * tx - x * tz;
  to[k + 2] = vz + w * tz + x * ty - y * tx;
}

/** Quaternion product a·b; with `reverseA` its first factor is turned round: a⁻¹·b, "b told in the axes of a". */
export function multiplyAt(
  a: Numbers, i: number, b: Numbers, j: number, to: Numbers, k: number, reverseA = false,
): void {
  const s = reverseA ? -1 : 1;
  const aw = a[i]!;
  const ax = s * a[i + 1]!;
  const ay = s * a[i + 2]!;
  const az = s * a[i + 3]!;
  const bw = b[j]!;
  const bx = b[j + 1]!;
  const by = b[j + 2]!;
  const bz = b[j + 3]!;
  to[k] = aw * bw - ax * bx - ay * by - az * bz;
  to[k + 1] = aw * bx + ax * bw + ay * bz - az * by;
  to[k + 2] = aw * by - ax * bz + ay * bw + az * bx;
  to[k + 3] = aw * bz + ax * by - ay * bx + az * bw;
}

/** Half of a turn, the shorter way round: the mean of the turn and rest, made one long; no angle is taken. */
export function halfTurnAt(q: Numbers, i: number, to: Numbers, k: number): void {
  const sign = q[i]! < 0 ? -1 : 1;
  const w = 1 + sign * q[i]!;
  const x = sign * q[i + 1]!;
  const y = sign * q[i + 2]!;
  const z = sign * q[i + 3]!;
  const size = Math.sqrt(w * w + x * x + y * y + z * z);
  to[k] = w / size;
  to[k + 1] = x / size;
  to[k + 2] = y / size;
  to[k + 3] = z / size;
}

/** The vector `v` carried along by the smallest turn that takes the unit vector `from` onto the unit vector `onto`. */
export function carryAt(
  from: Numbers, i: number, onto: Numbers, j: number, v: Numbers, l: number, to: Numbers, k: number,
): boolean {
  const fx = from[i]!;
  const fy = from[i + 1]!;
  const fz = from[i + 2]!;
  const ox = onto[j]!;
  const oy = onto[j + 1]!;
  const oz = onto[j + 2]!;
  // half the square of the sum is 1 + cos, without the digits that the subtraction would lose near opposite vectors
  const sx = fx + ox;
  const sy = fy + oy;
  const sz = fz + oz;
  const w = (sx * sx + sy * sy + sz * sz) / 2;
  if (w < 1e-16) return false;
  // v + c × v + c × (c × v)/(1 + cos), with c = from × onto
  const cx = fy * oz - fz * oy;
  const cy = fz * ox - fx * oz;
  const cz = fx * oy - fy * ox;
  const vx = v[l]!;
  const vy = v[l + 1]!;
  const vz = v[l + 2]!;
  const tx = cy * vz - cz * vy;
  const ty = cz * vx - cx * vz;
  const tz = cx * vy - cy * vx;
  to[k] = vx + tx + (cy * tz - cz * ty) / w;
  to[k + 1] = vy + ty + (cz * tx - cx * tz) / w;
  to[k + 2] = vz + tz + (cx * ty - cy * tx) / w;
  return true;
}

/** Quaternion of the axes whose unit vectors are x, y, z (columns of the rotation matrix); see `fromBasis`. */
export function fromBasisAt(
  x: Numbers, i: number, y: Numbers, j: number, z: Numbers, l: number, to: Numbers, k: number,
): void {
  const x0 = x[i]!;
  const x1 = x[i + 1]!;
  const x2 = x[i + 2]!;
  const y0 = y[j]!;
  const y1 = y[j + 1]!;
  const y2 = y[j + 2]!;
  const z0 = z[l]!;
  const z1 = z[l + 1]!;
  const z2 = z[l + 2]!;
  const trace = x0 + y1 + z2;
  let qw: number;
  let qx: number;
  let qy: number;
  let qz: number;
  if (trace >= x0 && trace >= y1 && trace >= z2) {
    [qw, qx, qy, qz] = [1 + trace, y2 - z1, z0 - x2, x1 - y0];
  } else if (x0 >= y1 && x0 >= z2) {
    [qw, qx, qy, qz] = [y2 - z1, 1 + x0 - y1 - z2, x1 + y0, z0 + x2];
  } else if (y1 >= z2) {
    [qw, qx, qy, qz] = [z0 - x2, x1 + y0, 1 + y1 - z2 - x0, y2 + z1];
  } else {
    [qw, qx, qy, qz] = [x1 - y0, z0 + x2, y2 + z1, 1 + z2 - x0 - y1];
  }
  const size = Math.sqrt(qw * qw + qx * qx + qy * qy + qz * qz);
  to[k] = qw / size;
  to[k + 1] = qx / size;
  to[k + 2] = qy / size;
  to[k + 3] = qz / size;
}
