/** Where the take has the puppet's feet standing. */
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { Poses } from '../timing/poses.ts';

/** `[N·F]` as they were planted; where nothing is planted on the puppet's floor, as the performer's feet stand at the same moments. */
export function standsOfTake({ feet, stands }: Pick<MovedPuppet, 'feet' | 'stands'>, { contacts }: Pick<Poses, 'contacts'>): Uint8Array {
  if (stands.includes(1)) return stands;
  return stands.map((_, i) => {
    const { side } = feet[i % feet.length]!;
    return side === null ? 0 : contacts[Math.floor(i / feet.length) * 2 + (side === 'left' ? 0 : 1)]!;
  });
}
