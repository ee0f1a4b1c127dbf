/** Two timings of one take side by side, as counts and as curves. */
import { layOutHolds } from './holdPattern.ts';
import { angleAt, type JointCurve } from './moments/curveTurns.ts';
import { snapExtremes, type Snapped } from './snap/snapExtremes.ts';
import type { TurningPoint } from './snap/turningPoints.ts';
import { MOST_STEPS } from './steps.ts';
import type { NamedTiming } from './timingSettings.ts';
import { anchorsOf, type Base } from './warp/anchors.ts';
import { makeWarp, type Warp } from './warp/warp.ts';

type Timing = Pick<NamedTiming, 'timing' | 'rate' | 'on' | 'timeScale'>;

export interface TimingCounts {
  readonly steps: number;
  readonly exposures: number;
  readonly seconds: number;
}

/** Part of an exposure by which rounding may push the last step beyond the end; as in `steps.ts`. */
const TOLERANCE = 1e-6;
/** Points of a curve: one for each exposure, within these. */
const CURVE_POINTS = { least: 120, most: 1500 } as const;

/** A timing as the plan times by it: its marks, and the time bent for extremes on steps. */
export interface BentTiming {
  readonly warp: Warp;
  readonly bent: Pick<Snapped, 'bent' | 'left'>;
}

/**
 * @param base the used part of the take, as it is on the bench
 * @param turns extremes of joints; those of the joints that this timing draws to steps are looked at
 */
export function bentTimingOf({ timing, rate, on, timeScale }: Timing, base: Base, captureFactor: number, turns: readonly TurningPoint[]): BentTiming {
  const warp = makeWarp(anchorsOf(timing.marks, { ...base, sourcePerFilm: captureFactor / timeScale }));
  const own = turns.filter(({ joint }) => timing.snapJoints.includes(joint));
  if (own.length === 0) return { warp, bent: { bent: [], left: [] } };
  const { exposure } = layOutHolds(on, timing.holdSpans, warp.anchors.at(-1)!.filmS * rate + TOLERANCE, MOST_STEPS);
  const snapped = snapExtremes(warp, Float64Array.from(exposure, (from) => (from - 1) / rate), own);
  return { warp: snapped.bent.length === 0 ? warp : makeWarp(snapped.anchors), bent: snapped };
}

/** The length of a timing; bending time for extremes does not change it. */
export function countsOf({ timing, rate, on, timeScale }: Timing, base: Base, captureFactor: number): TimingCounts {
  const filmS = makeWarp(anchorsOf(timing.marks, { ...base, sourcePerFilm: captureFactor / timeScale })).anchors.at(-1)!.filmS;
  const { exposure, holds } = layOutHolds(on, timing.holdSpans, filmS * rate + TOLERANCE, MOST_STEPS);
  const exposures = exposure.at(-1)! + holds.at(-1)! - 1;
  return { steps: exposure.length, exposures, seconds: exposures / rate };
}

/** Moments of the film, seconds, rising, and the moments of the take that stand there. */
export interface FilmCurve {
  readonly filmS: Float64Array;
  readonly sourceS: Float64Array;
}

export interface ComparedTimings {
  readonly first: TimingCounts;
  readonly second: TimingCounts;
  /** Length of each span of the take in both, exposures. */
  readonly spans: readonly (readonly [first: number, second: number])[];
  readonly firstCurve: FilmCurve;
  readonly secondCurve: FilmCurve;
  readonly firstBent: BentTiming['bent'];
  readonly secondBent: BentTiming['bent'];
}

/**
 * @param spans moments of the take, container seconds, whose lengths are compared
 * @param turns as for {@link bentTimingOf}
 */
export function compareTimings(
  first: Timing, second: Timing, base: Base, captureFactor: number, spans: readonly { readonly startS: number; readonly endS: number }[], turns: readonly TurningPoint[],
): ComparedTimings {
  const a = bentTimingOf(first, base, captureFactor, turns);
  const b = bentTimingOf(second, base, captureFactor, turns);
  const length = ({ warp }: BentTiming, rate: number, startS: number, endS: number): number => (warp.filmAt(endS) - warp.filmAt(startS)) * rate;
  return {
    first: countsOf(first, base, captureFactor), second: countsOf(second, base, captureFactor),
    spans: spans.map(({ startS, endS }) => [length(a, first.rate, startS, endS), length(b, second.rate, startS, endS)] as const),
    firstCurve: curveOf(a.warp, first.rate), secondCurve: curveOf(b.warp, second.rate), firstBent: a.bent, secondBent: b.bent,
  };
}

function curveOf(warp: Warp, rate: number): FilmCurve {
  const end = warp.anchors.at(-1)!.filmS;
  const points = Math.round(Math.min(CURVE_POINTS.most, Math.max(CURVE_POINTS.least, end * rate)));
  const filmS = Float64Array.from({ length: points + 1 }, (_, k) => (end * k) / points);
  return { filmS, sourceS: filmS.map((t) => warp.sourceAt(t)) };
}

/** `[K]` the angle of a joint at the moments of a timing's curve, degrees; NaN where it is missing. */
export function angleOverFilm({ sourceS }: FilmCurve, joint: JointCurve): Float64Array {
  return sourceS.map((at) => angleAt(joint, at));
}
