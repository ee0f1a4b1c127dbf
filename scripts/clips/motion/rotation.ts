// The little vector and quaternion arithmetic that poses, meshing and truth share. Kept apart from
// the product's own numeric core on purpose: the truth must not be made by the code it checks.

/** A point or direction [x, y, z]; metres when a point. */
export type Vec3 = readonly [number, number, number];
/** A unit quaternion [w, x, y, z]. */
export type Quat = readonly [number, number, number, number];

/** No rotation. */
export const IDENTITY: Quat = [1, 0, 0, 0];
/** The origin. */
export const ZERO: Vec3 = [0, 0, 0];

/** Degrees to radians. */
export const rad = (deg: number): number => (deg * Math.PI) / 180;
/** Radians to degrees. */
export const deg = (angleRad: number): number => (angleRad * 180) / Math.PI;

/** a + b. */
export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
/** a - b: from b to a. */
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/** a, s times as long. */
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
/** Scalar product. */
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/** Euclidean length. */
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
/** The point a share t of the way from a to b. */
export const mix = (a: Vec3, b: Vec3, t: number): Vec3 => add(a, scale(sub(b, a), t));

/** Vector product, right-handed. */
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Unit vector along a; throws for a vector without direction, since no pose may contain one. */
export function unit(a: Vec3): Vec3 {
  const n = length(a);
  if (n < 1e-12) throw new Error('a direction of no length');
  return scale(a, 1 / n);
}

/** Hamilton product: first b, then a. */
export const mul = (a: Quat, b: Quat): Quat => [
  a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3],
  a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2],
  a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1],
  a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0],
];

/** Product of several rotations, the last applied first. */
export const chain = (...qs: readonly Quat[]): Quat => qs.reduce(mul, IDENTITY);

/** The rotation back. */
export const inverse = (q: Quat): Quat => [q[0], -q[1], -q[2], -q[3]];

/** Turns v by q. */
export function turn(q: Quat, v: Vec3): Vec3 {
  const u: Vec3 = [q[1], q[2], q[3]];
  const t = scale(cross(u, v), 2);
  return add(add(v, scale(t, q[0])), cross(u, t));
}

const about = (axis: Vec3, degrees: number): Quat => {
  const h = rad(degrees) / 2;
  const s = Math.sin(h);
  return [Math.cos(h), axis[0] * s, axis[1] * s, axis[2] * s];
};
/** Turn about X (forward), right-handed, degrees. */
export const aboutX = (degrees: number): Quat => about([1, 0, 0], degrees);
/** Turn about Y (up), degrees. */
export const aboutY = (degrees: number): Quat => about([0, 1, 0], degrees);
/** Turn about Z (to the performer's right), degrees: a positive turn swings a hanging limb forward. */
export const aboutZ = (degrees: number): Quat => about([0, 0, 1], degrees);

/** The rotation whose columns are the right-handed orthonormal axes x, y, z. */
export function fromAxes(x: Vec3, y: Vec3, z: Vec3): Quat {
  const trace = x[0] + y[1] + z[2];
  if (trace > 0) {
    const s = 2 * Math.sqrt(trace + 1);
    return [s / 4, (y[2] - z[1]) / s, (z[0] - x[2]) / s, (x[1] - y[0]) / s];
  }
  if (x[0] > y[1] && x[0] > z[2]) {
    const s = 2 * Math.sqrt(1 + x[0] - y[1] - z[2]);
    return [(y[2] - z[1]) / s, s / 4, (y[0] + x[1]) / s, (z[0] + x[2]) / s];
  }
  if (y[1] > z[2]) {
    const s = 2 * Math.sqrt(1 + y[1] - x[0] - z[2]);
    return [(z[0] - x[2]) / s, (y[0] + x[1]) / s, s / 4, (z[1] + y[2]) / s];
  }
  const s = 2 * Math.sqrt(1 + z[2] - x[0] - y[1]);
  return [(x[1] - y[0]) / s, (z[0] + x[2]) / s, (z[1] + y[2]) / s, s / 4];
}
