/**
 * Extremes on steps: the time of the film is bent a little, so that the extremes of chosen joints are poses that are really set and do
 * not fall between two.
 */
import type { TurningPoint } from './turningPoints.ts';
import type { Anchor, Warp } from '../warp/warp.ts';

export interface BentExtreme extends TurningPoint {
  /** Where it would stand and where it stands, seconds on the film. */
  readonly fromFilmS: number;
  readonly toFilmS: number;
}

export interface Snapped {
  readonly anchors: readonly Anchor[];
  /** Every extreme that was moved, rising in time. */
  readonly bent: readonly BentExtreme[];
  /** Extremes that stay between steps: another one, or a mark, is too near. */
  readonly left: readonly TurningPoint[];
}

/** Extremes are no nearer to each other, and to marks, than this part of a step. Our choice: less would make the time jerk. */
const LEAST_APART_STEPS = 0.75;

/**
 * Each extreme goes to the nearest start of a step. Of extremes that would fall on one step the largest turn wins; marks stay as they are.
 *
 * @param warp by the marks alone
 * @param filmTimeS starts of the steps, rising
 * @param points extremes of all chosen joints
 */
export function snapExtremes(warp: Warp, filmTimeS: Float64Array, points: readonly TurningPoint[]): Snapped {
  const bent: BentExtreme[] = [];
  const left: TurningPoint[] = [];
  const fixed = warp.anchors;
  const [first, last] = [fixed[0]!, fixed[fixed.length - 1]!];
  const stepS = (k: number): number => (filmTimeS[Math.min(filmTimeS.length - 1, k + 1)]! - filmTimeS[Math.max(0, k - 1)]!) / 2 || 1;
  const taken = new Set<number>();
  const ordered = points.filter(({ sourceS }) => sourceS > first.sourceS && sourceS < last.sourceS);
  // the extremes of one moment (both elbows) are one
  for (const point of [...ordered].sort((a, b) => a.sourceS - b.sourceS)) {
    const fromFilmS = warp.filmAt(point.sourceS);
    const k = nearest(filmTimeS, fromFilmS);
    const toFilmS = filmTimeS[k]!;
    const nearMark = fixed.some((anchor) => Math.abs(anchor.filmS - toFilmS) < LEAST_APART_STEPS * stepS(k) || Math.abs(anchor.filmS - fromFilmS) < 1e-9);
    const before = bent.at(-1);
    const tooNear = before !== undefined && (toFilmS - before.toFilmS < LEAST_APART_STEPS * stepS(k) || point.sourceS - before.sourceS <= 0);
    if (taken.has(k) || nearMark || tooNear) left.push(point);
    else {
      bent.push({ ...point, fromFilmS, toFilmS });
      taken.add(k);
    }
  }
  const anchors = [...fixed, ...bent.map(({ toFilmS, sourceS }) => ({ filmS: toFilmS, sourceS }))].sort((a, b) => a.filmS - b.filmS);
  // an extreme that would overtake a mark stays where it is
  const sound = anchors.every((anchor, i) => i === 0 || anchor.sourceS >= anchors[i - 1]!.sourceS);
  return sound ? { anchors, bent, left } : onlySound(fixed, bent, left);
}

function onlySound(fixed: readonly Anchor[], bent: readonly BentExtreme[], left: readonly TurningPoint[]): Snapped {
  const kept: BentExtreme[] = [];
  const lost: TurningPoint[] = [...left];
  let anchors = [...fixed];
  for (const point of bent) {
    const next = [...anchors, { filmS: point.toFilmS, sourceS: point.sourceS }].sort((a, b) => a.filmS - b.filmS);
    if (next.every((anchor, i) => i === 0 || anchor.sourceS >= next[i - 1]!.sourceS)) {
      anchors = next;
      kept.push(point);
    } else lost.push(point);
  }
  return { anchors, bent: kept, left: lost };
}

function nearest(rising: Float64Array, at: number): number {
  let low = 0;
  let high = rising.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rising[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low > 0 && at - rising[low - 1]! <= rising[low]! - at ? low - 1 : low;
}
