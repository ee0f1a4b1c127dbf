/** The body pauses while something of it only stirs: nobody is all still. */
import type { Motion } from '../../motion/motion.ts';
import type { LimbSpeed } from './limbSpeed.ts';
import type { Run } from './runs.ts';
import { turnBetween } from './turned.ts';

/** A stretch in which the body goes less far than this part of the farthest one is a stir. Our choice. */
const STIR_PART = 0.15;

/**
 * Stretches in which the body moves, less those that are stirs beside the largest; by how far all joints as one get from where they were, weighed as
 * their speeds are. By the way and not by the speed: a slow lean that goes far is a move.
 */
export function withoutStirs(motion: Motion, speed: LimbSpeed, runs: readonly Run[]): readonly Run[] {
  const ways = runs.map((run) => wayFromStart(motion, speed, run));
  const largest = Math.max(0, ...ways);
  return runs.filter((_, k) => ways[k]! >= STIR_PART * largest);
}

function wayFromStart(motion: Motion, { joints, weights }: LimbSpeed, { from, to }: Run): number {
  let most = 0;
  for (let t = from + 1; t <= to; t++) {
    let square = 0;
    joints.forEach((joint, j) => {
      square += (weights[j]! * turnBetween(motion, joint, from, t)) ** 2;
    });
    most = Math.max(most, square);
  }
  return Math.sqrt(most);
}
