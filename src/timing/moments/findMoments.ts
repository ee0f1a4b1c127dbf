/** Cuts a motion into moves and pauses, limb by limb and for the whole body. */
import type { Motion } from '../../motion/motion.ts';
import { bodySpeed } from './bodySpeed.ts';
import { cutMoves, pausesBetween } from './cutMoves.ts';
import { limbSpeed } from './limbSpeed.ts';
import { LIMBS, type Moments } from './moments.ts';
import { knownRuns } from './runs.ts';
import { withHidden, withoutStirs } from './stirs.ts';
import { withoutWandering } from './wandering.ts';

/**
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function findMoments(motion: Motion, captureFactor: number): Moments {
  const speeds = LIMBS.map((limb) => limbSpeed(motion, limb, captureFactor));
  const limbMoves = LIMBS.map((limb, l) => cutMoves(motion, limb, speeds[l]!, captureFactor, { moves: (moves) => withoutWandering(motion, speeds[l]!, moves, captureFactor) }));
  const whole = bodySpeed(speeds, motion, captureFactor);
  const knownS = knownRuns(whole.degPerS).map(({ from, to }) => [motion.timesS[from]!, motion.timesS[to]!] as const);
  const bodyMoves = withHidden(cutMoves(motion, 'body', whole, captureFactor, { runs: (runs) => withoutStirs(motion, whole, runs) }), limbMoves.flat(), knownS);
  return {
    moves: [...limbMoves.flat(), ...bodyMoves],
    pauses: [...LIMBS.flatMap((limb, l) => pausesBetween(motion, limb, speeds[l]!, limbMoves[l]!, captureFactor)), ...pausesBetween(motion, 'body', whole, bodyMoves, captureFactor)],
  };
}
