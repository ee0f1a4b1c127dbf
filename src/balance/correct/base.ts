/** The base of support as edges, and how deep inside it a point can lie. */
import { leastChange } from './leastChange.ts';

/** A point (x, z) lies (x − atX)·inX + (z − atZ)·inZ inside an edge's line. */
export interface Edge {
  readonly atX: number;
  readonly atZ: number;
  readonly inX: number;
  readonly inZ: number;
}

/** @param outline convex, turning from x toward z, as `hullOf` gives it */
export function edgesOf(outline: Float64Array): readonly Edge[] {
  const n = outline.length / 2;
  return Array.from({ length: n }, (_, e): Edge => {
    const next = (e + 1) % n;
    const [atX, atZ] = [outline[e * 2]!, outline[e * 2 + 1]!];
    const [dx, dz] = [outline[next * 2]! - atX, outline[next * 2 + 1]! - atZ];
    const long = Math.hypot(dx, dz) || 1;
    return { atX, atZ, inX: -dz / long, inZ: dx / long };
  });
}

/** Deeper than any base is wide, mm. */
const FAR_MM = 1e4;
const NEXT_TO_NOTHING = 1e-6;

/** The largest margin that any point has, mm: the radius of the largest circle inside. */
export function deepest(outline: Float64Array): number {
  const n = outline.length / 2;
  if (n < 3) return 0;
  // from the first corner, so that its place on the set costs nothing: a point and a lack that all edges share, as little lack as can be
  const edges = edgesOf(outline);
  const found = leastChange([NEXT_TO_NOTHING, NEXT_TO_NOTHING, 1], edges.map(({ atX, atZ, inX, inZ }) => (
    { at: [0, 1, 2], a: [inX, inZ, 1], c: FAR_MM + (atX - outline[0]!) * inX + (atZ - outline[1]!) * inZ })));
  return found === null ? 0 : FAR_MM - found[2]!;
}
