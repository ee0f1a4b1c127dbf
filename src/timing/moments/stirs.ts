/** The body pauses while something of it only stirs: nobody is all still. */
import type { Motion } from '../../motion/motion.ts';
import type { BodySpeed } from './bodySpeed.ts';
import type { Move } from './moments.ts';
import type { Run } from './runs.ts';
import { turnBetween } from './turned.ts';

/** A stretch in which the body goes less far than this part of the farthest one is a stir. Our choice. */
const STIR_PART = 0.15;

/**
 * Stretches in which the body moves, less those that are stirs beside the largest; by how far all joints as one get from where they were, weighed as
 * their speeds are. By the way and not by the speed: a slow lean that goes far is a move.
 */
export function withoutStirs(motion: Motion, speed: BodySpeed, runs: readonly Run[]): readonly Run[] {
  const ways = runs.map((run) => wayFromStart(motion, speed, run));
  const largest = Math.max(0, ...ways);
  return runs.filter((_, k) => ways[k]! >= STIR_PART * largest);
}

/** A limb's move is hidden where it lies outside the body's moves for more than this part of its time. Our choice. */
const HIDDEN_PART = 0.5;

/**
 * Moves of the body, and those of single limbs that its speed hides: a slow one is lost in the noise of all the other joints. Stirs stay out as they do
 * above, by the turn of the joint that turns most.
 *
 * @param body its moves, rising in time and not overlapping
 * @param knownS spans in which the whole body is known, container seconds
 */
export function withHidden(body: readonly Move[], limbs: readonly Move[], knownS: readonly (readonly [fromS: number, toS: number])[]): readonly Move[] {
  const largest = limbs.reduce((most, { sizeDeg }) => Math.max(most, sizeDeg), 0);
  const out = [...body];
  for (const move of limbs.filter(({ sizeDeg }) => sizeDeg >= STIR_PART * largest).sort((a, b) => b.sizeDeg - a.sizeDeg)) {
    if (!knownS.some(([fromS, toS]) => move.startS >= fromS && move.endS <= toS)) continue;
    const inside = out.reduce((sum, { startS, endS }) => sum + Math.max(0, Math.min(endS, move.endS) - Math.max(startS, move.startS)), 0);
    if (inside > (1 - HIDDEN_PART) * (move.endS - move.startS)) continue;
    // as much of it as lies between the body's moves beside its peak, or beside what is left of it
    const before = out.filter(({ startS }) => startS <= move.peakS).at(-1);
    const after = out.find(({ startS }) => startS > move.peakS);
    const startS = Math.max(move.startS, before?.endS ?? -Infinity);
    const endS = Math.min(move.endS, after?.startS ?? Infinity);
    if (endS > startS) out.push({ ...move, of: 'body', startS, endS, peakS: Math.min(endS, Math.max(startS, move.peakS)) });
    out.sort((a, b) => a.startS - b.startS);
  }
  return out;
}

function wayFromStart(motion: Motion, { joints, weights }: BodySpeed, { from, to }: Run): number {
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
