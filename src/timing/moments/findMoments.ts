/** Cuts a motion into moves and pauses. */
import type { Motion } from '../../motion/motion.ts';
import type { Moments } from './moments.ts';

/**
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function findMoments(motion: Motion, captureFactor: number): Moments {
  void motion;
  void captureFactor;
  return { moves: [], pauses: [] };
}
