/** The body pauses where none of its limbs makes a move that counts beside the take's largest; in between it moves. */
import type { Motion } from '../../motion/motion.ts';
import { LIMBS, type Moments, type Move, type Pause } from './moments.ts';
import type { Run } from './runs.ts';
import { driftOf } from './turned.ts';

/** A limb's move smaller than this part of the take's largest one is a stir: nobody is all still. Our choice. */
const STIR_PART = 0.15;
const NEAR_S = 1e-9;

/**
 * @param moves of all limbs
 * @param known runs of frames in which every limb is known, rising
 * @param leastPauseS shortest pause, container seconds
 */
export function bodyMoments(motion: Motion, moves: readonly Move[], known: readonly Run[], leastPauseS: number): Moments {
  const { timesS } = motion;
  const largest = moves.reduce((most, { sizeDeg }) => Math.max(most, sizeDeg), 0);
  const counting = moves.filter(({ sizeDeg }) => sizeDeg >= STIR_PART * largest).sort((a, b) => a.startS - b.startS);
  const pauses: Pause[] = [];
  for (const { from, to } of known) {
    let fromS = timesS[from]!;
    const close = (toS: number): void => {
      if (toS - fromS >= leastPauseS - NEAR_S) pauses.push({ of: 'body', fromS, toS, driftDeg: Math.max(...LIMBS.map((limb) => driftOf(motion, limb, fromS, toS))) });
    };
    for (const { startS, endS } of counting) {
      if (endS <= timesS[from]! || startS >= timesS[to]!) continue;
      close(startS);
      fromS = Math.max(fromS, endS);
    }
    close(timesS[to]!);
  }
  const spans: { fromS: number; toS: number; best: Move }[] = [];
  for (const move of counting) {
    const last = spans.at(-1);
    const parted = last !== undefined && pauses.some(({ fromS, toS }) => fromS >= last.toS - NEAR_S && toS <= move.startS + NEAR_S);
    if (last === undefined || move.startS > last.toS || parted) spans.push({ fromS: move.startS, toS: move.endS, best: move });
    else {
      last.toS = Math.max(last.toS, move.endS);
      if (move.sizeDeg > last.best.sizeDeg) last.best = move;
    }
  }
  return { moves: spans.map(({ fromS, toS, best }) => ({ ...best, of: 'body' as const, startS: fromS, endS: toS })), pauses };
}
