/** The body pauses where all its limbs do; in between it moves. */
import type { Motion } from '../../motion/motion.ts';
import { LIMBS, type Moments, type Move, type Pause } from './moments.ts';
import { driftOf } from './turned.ts';

/**
 * @param moves of all limbs
 * @param still `[T]` how many limbs pause at each frame
 * @param leastPauseS shortest pause, seconds of the performer
 */
export function bodyMoments(motion: Motion, moves: readonly Move[], still: Int32Array, captureFactor: number, leastPauseS: number): Moments {
  const { timesS } = motion;
  const pauses: Pause[] = [];
  for (let t = 0; t < timesS.length; t++) {
    if (still[t] !== LIMBS.length) continue;
    let to = t;
    while (to + 1 < timesS.length && still[to + 1] === LIMBS.length) to++;
    const [fromS, toS] = [timesS[t]!, timesS[to]!];
    if ((toS - fromS) / captureFactor >= leastPauseS - 1e-9) pauses.push({ of: 'body', fromS, toS, driftDeg: Math.max(...LIMBS.map((limb) => driftOf(motion, limb, fromS, toS))) });
    t = to;
  }
  const spans: { fromS: number; toS: number; best: Move }[] = [];
  for (const move of [...moves].sort((a, b) => a.startS - b.startS)) {
    const last = spans.at(-1);
    const parted = last !== undefined && pauses.some(({ fromS, toS }) => fromS >= last.toS - 1e-9 && toS <= move.startS + 1e-9);
    if (last === undefined || move.startS > last.toS || parted) spans.push({ fromS: move.startS, toS: move.endS, best: move });
    else {
      last.toS = Math.max(last.toS, move.endS);
      if (move.sizeDeg > last.best.sizeDeg) last.best = move;
    }
  }
  return { moves: spans.map(({ fromS, toS, best }) => ({ ...best, of: 'body' as const, startS: fromS, endS: toS })), pauses };
}
