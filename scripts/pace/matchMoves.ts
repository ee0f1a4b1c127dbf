/** Moves that were found held against those that are there. */
import type { Move } from '../../src/timing/moments/moments.ts';

type Span = Pick<Move, 'startS' | 'endS'>;

export interface Matched {
  /** Of those that are there: how many a found move covers by half or more of their time. */
  readonly seen: number;
  /** Found moves of which less than a third lies within any that is there. */
  readonly madeUp: number;
  /** Size of the largest of those, degrees; 0 of none. */
  readonly madeUpDeg: number;
  /** How far starts and ends of the seen ones are off, seconds. */
  readonly offS: readonly number[];
}

const SEEN_PART = 0.5;
const TRUE_PART = 1 / 3;

const shared = (a: Span, b: Span): number => Math.max(0, Math.min(a.endS, b.endS) - Math.max(a.startS, b.startS));

export function matchMoves(found: readonly (Span & Pick<Move, 'sizeDeg'>)[], there: readonly Span[]): Matched {
  const offS: number[] = [];
  let seen = 0;
  for (const one of there) {
    const best = found.reduce<Span | null>((most, move) => (most === null || shared(move, one) > shared(most, one) ? move : most), null);
    if (best === null || shared(best, one) < SEEN_PART * (one.endS - one.startS)) continue;
    seen += 1;
    offS.push(Math.abs(best.startS - one.startS), Math.abs(best.endS - one.endS));
  }
  const madeUp = found.filter((move) => there.reduce((sum, one) => sum + shared(move, one), 0) < TRUE_PART * (move.endS - move.startS));
  return { seen, madeUp: madeUp.length, madeUpDeg: Math.max(0, ...madeUp.map(({ sizeDeg }) => sizeDeg)), offS };
}
