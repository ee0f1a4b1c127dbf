/**
 * Vectors of three numbers, as small tuples: for the geometry of one frame, where clarity counts more than the last
 * microsecond. Long series live in typed arrays and are read out with {@link readVec3}.
 */
export type Vec3 = readonly [number, number, number];

/** Reads element `index` of an array of triples `[n·3]`. */
export function readVec3(series: ArrayLike<number>, index: number): Vec3 {
  const at = index * 3;
  return [series[at] ?? Number.NaN, series[at + 1] ?? Number.NaN, series[at + 2] ?? Number.NaN];
}

/** Writes a vector as element `index` of an array of triples `[n·3]`; far quicker than `set` with a tuple. */
export function writeVec3(series: Float64Array, index: number, v: Vec3): void {
  const at = index * 3;
  series[at] = v[0];
  series[at + 1] = v[1];
  series[at + 2] = v[2];
}

export function add(a: Vec3, b: Vec3): Vec3 {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

export function subtract(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function scale(a: Vec3, by: number): Vec3 {
  return [a[0] * by, a[1] * by, a[2] * by];
}

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Right-handed cross product. */
export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function length(a: Vec3): number {
  return Math.sqrt(dot(a, a));
}

/** Point half-way between two points. */
export function midpoint(a: Vec3, b: Vec3): Vec3 {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}

/** Shortest length that still counts as a direction: far below a landmark's error, far above rounding. */
const SHORTEST = 1e-9;

/** The vector made one long, or `undefined` where it is too short to have a direction (or is not finite). */
export function unit(a: Vec3): Vec3 | undefined {
  const size = length(a);
  return size > SHORTEST && size < Number.POSITIVE_INFINITY ? scale(a, 1 / size) : undefined;
}

/** Part of `a` that is square to the unit vector `to`. */
export function reject(a: Vec3, to: Vec3): Vec3 {
  const along = dot(a, to);
  return [a[0] - along * to[0], a[1] - along * to[1], a[2] - along * to[2]];
}

/**
 * Unsigned angle between two vectors, radians in 0..π, of any lengths. By atan2, which stays exact where acos loses
 * half its digits (near 0 and π). Zero vectors give 0.
 */
export function angleBetweenVectors(a: Vec3, b: Vec3): number {
  return Math.atan2(length(cross(a, b)), dot(a, b));
}
