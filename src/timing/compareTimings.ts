/** Two timings of one take side by side, as counts and as curves. */
import { layOutHolds } from './holdPattern.ts';
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
const CURVE_POINTS = 120;

function warpOf({ timing, timeScale }: Timing, base: Base, captureFactor: number): Warp {
  return makeWarp(anchorsOf(timing.marks, { ...base, sourcePerFilm: captureFactor / timeScale }));
}

/** @param base the used part of the take, as it is on the bench */
export function countsOf(one: Timing, base: Base, captureFactor: number): TimingCounts {
  const filmS = warpOf(one, base, captureFactor).anchors.at(-1)!.filmS;
  const { exposure, holds } = layOutHolds(one.on, one.timing.holdSpans, filmS * one.rate + TOLERANCE, MOST_STEPS);
  const exposures = exposure.at(-1)! + holds.at(-1)! - 1;
  return { steps: exposure.length, exposures, seconds: exposures / one.rate };
}

export interface ComparedTimings {
  readonly first: TimingCounts;
  readonly second: TimingCounts;
  /** Length of each span of the take in both, exposures. */
  readonly spans: readonly (readonly [first: number, second: number])[];
  readonly firstCurve: { readonly filmS: Float64Array; readonly sourceS: Float64Array };
  readonly secondCurve: { readonly filmS: Float64Array; readonly sourceS: Float64Array };
}

/** @param spans moments of the take, container seconds, whose lengths are compared */
export function compareTimings(
  first: Timing, second: Timing, base: Base, captureFactor: number, spans: readonly { readonly startS: number; readonly endS: number }[],
): ComparedTimings {
  const [a, b] = [first, second].map((one) => warpOf(one, base, captureFactor)) as [Warp, Warp];
  const length = (warp: Warp, rate: number, startS: number, endS: number): number => (warp.filmAt(endS) - warp.filmAt(startS)) * rate;
  return {
    first: countsOf(first, base, captureFactor), second: countsOf(second, base, captureFactor),
    spans: spans.map(({ startS, endS }) => [length(a, first.rate, startS, endS), length(b, second.rate, startS, endS)] as const),
    firstCurve: curveOf(a), secondCurve: curveOf(b),
  };
}

function curveOf(warp: Warp): { readonly filmS: Float64Array; readonly sourceS: Float64Array } {
  const end = warp.anchors.at(-1)!.filmS;
  const filmS = Float64Array.from({ length: CURVE_POINTS + 1 }, (_, k) => (end * k) / CURVE_POINTS);
  return { filmS, sourceS: filmS.map((t) => warp.sourceAt(t)) };
}
