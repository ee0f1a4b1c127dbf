// Which bones carry a vertex, and by how much: nearer shapes pull more.
import type { Holder } from './part.ts';

/** Distance over which a bone's pull falls to 1/e (m); laboratory notes. */
const FALL_M = 0.016;
const PER_VERTEX = 4;

export interface Skin {
  /** bones[V*4]: indices into the joints; weights[V*4] sum to 1 per vertex. */
  readonly bones: Uint16Array;
  readonly weights: Float32Array;
}

/** positions[V*3] in the bind pose. */
export function skinOf(positions: Float32Array, holders: readonly Holder[], indexOf: (bone: Holder['bone']) => number): Skin {
  const n = positions.length / 3;
  const bones = new Uint16Array(n * PER_VERTEX);
  const weights = new Float32Array(n * PER_VERTEX);
  for (let v = 0; v < n; v++) {
    const x = positions[3 * v] ?? 0, y = positions[3 * v + 1] ?? 0, z = positions[3 * v + 2] ?? 0;
    const nearest = new Map<number, number>();
    for (const { bone, shape } of holders) {
      const i = indexOf(bone);
      nearest.set(i, Math.min(nearest.get(i) ?? Infinity, shape(x, y, z)));
    }
    const ranked = [...nearest].sort((a, b) => a[1] - b[1]).slice(0, PER_VERTEX);
    const least = ranked[0]?.[1] ?? 0;
    const pulls = ranked.map(([, d]) => Math.exp(-(d - least) / FALL_M));
    const total = pulls.reduce((a, b) => a + b, 0);
    ranked.forEach(([bone], r) => {
      bones[v * PER_VERTEX + r] = bone;
      weights[v * PER_VERTEX + r] = (pulls[r] ?? 0) / total;
    });
  }
  return { bones, weights };
}
