/**
 * The anchors of a plan's warp: the in point at the first exposure, the marks, and the out point as much later than the last
 * mark as the base speed says. Without marks that is one straight line, which is the timing as performed.
 */
import type { TimeMark } from '../timingSettings.ts';
import type { Anchor } from './warp.ts';

export interface Base {
  /** The part of the take that is used, container seconds. */
  readonly inS: number;
  readonly outS: number;
  /** Seconds of the container that pass in a second of film, where nothing is retimed. */
  readonly sourcePerFilm: number;
}

/** Marks nearer to each other or to the in point than this, on the film, are no two moments. Far below an exposure. Our choice. */
export const LEAST_APART_S = 1e-6;

/**
 * The marks that count: within the used part of the take, after the first exposure, rising. Others are left out (they come
 * back with the in or out point they belonged to).
 */
export function marksInForce(marks: readonly TimeMark[], { inS, outS }: Base): readonly TimeMark[] {
  const out: TimeMark[] = [];
  let filmS = 0;
  let sourceS = inS;
  for (const mark of marks) {
    if (mark.sourceS < sourceS || mark.sourceS > outS || mark.filmS < filmS + LEAST_APART_S) continue;
    out.push(mark);
    ({ filmS, sourceS } = mark);
  }
  return out;
}

/** At least two, with film times that rise; the last is the out point. */
export function anchorsOf(marks: readonly TimeMark[], base: Base): readonly Anchor[] {
  const used = marksInForce(marks, base);
  const start: Anchor = { filmS: 0, sourceS: base.inS };
  const last = used.at(-1) ?? start;
  const rest = (base.outS - last.sourceS) / base.sourcePerFilm;
  const middle = used.map(({ filmS, sourceS }) => ({ filmS, sourceS }));
  if (rest > LEAST_APART_S || used.length === 0) return [start, ...middle, { filmS: last.filmS + Math.max(rest, LEAST_APART_S), sourceS: base.outS }];
  return [start, ...middle];
}
