/** Landings of the feet, and the cadence of a walk. */
import type { Motion } from '../../motion/motion.ts';

/** Container times at which a foot that was in the air stands again; both feet, in order. */
export function contactStarts({ contacts, timesS }: Pick<Motion, 'contacts' | 'timesS'>): readonly number[] {
  const out: number[] = [];
  for (let t = 1; t < timesS.length; t++) {
    for (let foot = 0; foot < 2; foot++) if (contacts[t * 2 + foot] === 1 && contacts[(t - 1) * 2 + foot] === 0) out.push(timesS[t]!);
  }
  return out;
}
