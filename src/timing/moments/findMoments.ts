/** Cuts a motion into moves and pauses, limb by limb and for the whole body. */
import type { Motion } from '../../motion/motion.ts';
import { cutMoves, pausesBetween } from './cutMoves.ts';
import { limbSpeeds } from './limbSpeed.ts';
import { LIMBS, type Moments } from './moments.ts';
import { withoutStirs } from './stirs.ts';
import { withoutWandering } from './wandering.ts';

/**
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function findMoments(motion: Motion, captureFactor: number): Moments {
  const { limbs: speeds, body: whole } = limbSpeeds(motion, captureFactor);
  const limbMoves = LIMBS.map((limb, l) => withoutWandering(motion, speeds[l]!, cutMoves(motion, limb, speeds[l]!, captureFactor), captureFactor));
  const bodyMoves = cutMoves(motion, 'body', whole, captureFactor, (runs) => withoutStirs(motion, whole, runs));
  return {
    moves: [...limbMoves.flat(), ...bodyMoves],
    pauses: [...LIMBS.flatMap((limb, l) => pausesBetween(motion, limb, speeds[l]!, limbMoves[l]!, captureFactor)), ...pausesBetween(motion, 'body', whole, bodyMoves, captureFactor)],
  };
}
