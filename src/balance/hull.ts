/** The base of support: the convex outline of what touches the floor, and how far inside it a point lies. */

/**
 * Convex hull of points over the floor, by the monotone chain (Andrew 1979, Inf. Process. Lett. 9:216-219; from memory).
 *
 * @param points `[x, z, x, z, …]` any unit
 * @returns the corners in order round it, from the smallest x, turning from x toward z; fewer than three where the points lie on a line
 */
export function hullOf(points: readonly number[]): Float64Array {
  const order = Array.from({ length: points.length / 2 }, (_, k) => k).sort((a, b) => points[a * 2]! - points[b * 2]! || points[a * 2 + 1]! - points[b * 2 + 1]!);
  const turn = (a: number, b: number, c: number): number =>
    (points[b * 2]! - points[a * 2]!) * (points[c * 2 + 1]! - points[a * 2 + 1]!) - (points[b * 2 + 1]! - points[a * 2 + 1]!) * (points[c * 2]! - points[a * 2]!);
  const half = (some: readonly number[]): number[] => {
    const out: number[] = [];
    for (const k of some) {
      while (out.length >= 2 && turn(out[out.length - 2]!, out[out.length - 1]!, k) <= 0) out.pop();
      out.push(k);
    }
    return out;
  };
  const lower = half(order);
  const upper = half([...order].reverse());
  const corners = [...lower.slice(0, -1), ...upper.slice(0, -1)];
  return Float64Array.from(corners.flatMap((k) => [points[k * 2]!, points[k * 2 + 1]!]));
}

/** Twice half the cross products: area of an outline in the unit squared; 0 for less than a triangle. */
export function areaOf(outline: ArrayLike<number>): number {
  let twice = 0;
  for (let k = 0, n = outline.length / 2; k < n; k++) {
    const next = (k + 1) % n;
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
  let [edgeX, edgeZ, outX, outZ] = [0, 0, 1, 0];
  for (let k = 0; k < n; k++) {
    const next = (k + 1) % n;
    const [ax, az] = [outline[k * 2]!, outline[k * 2 + 1]!];
    const [dx, dz] = [outline[next * 2]! - ax, outline[next * 2 + 1]! - az];
    const square = dx * dx + dz * dz;
    // the outline turns from x toward z, so what lies to the other side of an edge is outside
    if (n >= 3 && dx * (z - az) - dz * (x - ax) < 0) inside = false;
    const u = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (z - az) * dz) / square)) : 0;
    const [nearX, nearZ] = [ax + u * dx, az + u * dz];
    const distance = Math.hypot(x - nearX, z - nearZ);
    if (distance >= best) continue;
    best = distance;
    [edgeX, edgeZ] = [nearX, nearZ];
    const long = Math.sqrt(square);
    [outX, outZ] = long > 0 ? [dz / long, -dx / long] : [1, 0];
  }
  if (!inside && best > 0) [outX, outZ] = [(x - edgeX) / best, (z - edgeZ) / best];
  return { distance: inside ? best : -best, outX, outZ, edgeX, edgeZ };
}
