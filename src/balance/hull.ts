/** The base of support: the convex outline of what touches the floor, and how far inside it a point lies. */

let order = new Int32Array(64);
let corners = new Int32Array(128);

/**
 * Convex hull of points over the floor, by the monotone chain (Andrew 1979, Inf. Process. Lett. 9:216-219; from memory).
 *
 * @param points `[x, z, x, z, …]` any unit
 * @param count how many points are looked at; all of them where it is not said
 * @returns the corners in order round it, from the smallest x, turning from x toward z; fewer than three where the points lie on a line
 */
export function hullOf(points: ArrayLike<number>, count = points.length / 2): Float64Array {
  if (count > order.length) {
    order = new Int32Array(count * 2);
    corners = new Int32Array(count * 4);
  }
  sortByPlace(points, count);
  let n = 0;
  for (let i = 0; i < count; i++) n = addCorner(points, order[i]!, 0, n);
  const turn = n;
  for (let i = count - 2; i >= 0; i--) n = addCorner(points, order[i]!, turn - 1, n);
  // the last corner is the first one again
  const size = n > 1 ? n - 1 : n;
  const out = new Float64Array(size * 2);
  for (let i = 0; i < size; i++) {
    out[i * 2] = points[corners[i]! * 2]!;
    out[i * 2 + 1] = points[corners[i]! * 2 + 1]!;
  }
  return out;
}

/** By x, then z: insertion, since there are a dozen or two, and the soles' own order is half sorted. */
function sortByPlace(points: ArrayLike<number>, count: number): void {
  for (let i = 0; i < count; i++) {
    const x = points[i * 2]!;
    const z = points[i * 2 + 1]!;
    let at = i;
    while (at > 0) {
      const k = order[at - 1]!;
      const over = points[k * 2]! - x;
      if (over < 0 || (over === 0 && points[k * 2 + 1]! <= z)) break;
      order[at] = k;
      at--;
    }
    order[at] = i;
  }
}

/** Puts a point behind the `n` corners, after it has taken those away, down to `from`, that it shows not to be corners. */
function addCorner(points: ArrayLike<number>, k: number, from: number, n: number): number {
  const x = points[k * 2]!;
  const z = points[k * 2 + 1]!;
  let last = n;
  while (last - from >= 2) {
    const a = corners[last - 2]!;
    const b = corners[last - 1]!;
    const ax = points[a * 2]!;
    const az = points[a * 2 + 1]!;
    if ((points[b * 2]! - ax) * (z - az) - (points[b * 2 + 1]! - az) * (x - ax) > 0) break;
    last--;
  }
  corners[last] = k;
  return last + 1;
}

/** Area of an outline in the unit squared; 0 for less than a triangle. */
export function areaOf(outline: ArrayLike<number>): number {
  let twice = 0;
  for (let k = 0, n = outline.length / 2; k < n; k++) {
    const next = k + 1 < n ? k + 1 : 0;
    twice += outline[k * 2]! * outline[next * 2 + 1]! - outline[next * 2]! * outline[k * 2 + 1]!;
  }
  return Math.abs(twice) / 2;
}

export interface Margin {
  /** Shortest way to the edge: positive inside, negative outside. */
  readonly distance: number;
  /** Unit vector over the edge: where it would go. */
  readonly outX: number;
  readonly outZ: number;
  /** Nearest point of the edge. */
  readonly edgeX: number;
  readonly edgeZ: number;
}

/**
 * How far inside an outline a point lies.
 *
 * @param outline convex, as {@link hullOf} gives it; at least one corner
 */
export function marginOf(outline: ArrayLike<number>, x: number, z: number): Margin {
  const n = outline.length / 2;
  let inside = n >= 3;
  let best = Infinity;
  let edgeX = 0;
  let edgeZ = 0;
  let outX = 1;
  let outZ = 0;
  for (let k = 0; k < n; k++) {
    const next = k + 1 < n ? k + 1 : 0;
    const ax = outline[k * 2]!;
    const az = outline[k * 2 + 1]!;
    const dx = outline[next * 2]! - ax;
    const dz = outline[next * 2 + 1]! - az;
    const square = dx * dx + dz * dz;
    // the outline turns from x toward z, so what lies to the other side of an edge is outside
    if (n >= 3 && dx * (z - az) - dz * (x - ax) < 0) inside = false;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (z - az) * dz) / square)) : 0;
    const wayX = ax + u * dx - x;
    const wayZ = az + u * dz - z;
    const away = wayX * wayX + wayZ * wayZ;
    if (away >= best) continue;
    best = away;
    edgeX = ax + u * dx;
    edgeZ = az + u * dz;
    const long = Math.sqrt(square);
    outX = long > 0 ? dz / long : 1;
    outZ = long > 0 ? -dx / long : 0;
  }
  const distance = Math.sqrt(best);
  if (!inside && distance > 0) {
    outX = (x - edgeX) / distance;
    outZ = (z - edgeZ) / distance;
  }
  return { distance: inside ? distance : -distance, outX, outZ, edgeX, edgeZ };
}
