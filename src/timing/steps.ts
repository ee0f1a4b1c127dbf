/**
 * Which moments of the take become steps of the film.
 *
 * Three clocks: the film's (exposures ÷ rate), the performer's own, and the container's. Film time = performer's time ×
 * timeScale; the container runs captureFactor times slower than the performer when the clip was shot that much faster
 * than it is stored. So a step that starts at film time t shows the pose of the container's time in + t / timeScale ×
 * captureFactor; where marks retime it, that of the warp (`warp/`). Steps start on whole exposures (`holdPattern.ts`).
 */
import { NudgebookError } from '../errors.ts';
import { layOutHolds } from './holdPattern.ts';
import type { HoldSpan, TimeMark } from './timingSettings.ts';
import { anchorsOf, marksInForce, type Base } from './warp/anchors.ts';
import { makeWarp, type Anchor, type Warp } from './warp/warp.ts';

export interface StepTiming {
  /** First and last moment used, container seconds; `null` is the first or last frame of the take. */
  readonly inS: number | null;
  readonly outS: number | null;
  readonly captureFactor: number;
  /** Exposures a second of the film. */
  readonly rate: number;
  /** Exposures for which one pose is held. */
  readonly on: number;
  /** Film time ÷ performer's time. */
  readonly timeScale: number;
  /** Ties moments of the take to moments of the film; none: as performed. */
  readonly marks?: readonly TimeMark[];
  /** Where poses are held for another number of exposures. */
  readonly holdSpans?: readonly HoldSpan[];
}

/**
 * N steps.
 * - `exposure[N]` first exposure of each, counted from 1. `holds[N]` for how many exposures it is held.
 * - `filmTimeS[N]` seconds from the first exposure.
 * - `sourceTimeS[N]` container seconds.
 */
export interface Steps {
  readonly count: number;
  readonly exposure: Int32Array;
  readonly holds: Int32Array;
  readonly filmTimeS: Float64Array;
  readonly sourceTimeS: Float64Array;
}

/** More steps than anybody shoots in one take (28 minutes on twos at 24); far more would only fill the memory. Our choice. */
export const MOST_STEPS = 20_000;

/** Part of an exposure by which rounding may push the last step beyond the end and it still counts. */
const TOLERANCE = 1e-6;

/**
 * What of the take is used, and how fast.
 *
 * @param firstS container time of the take's first frame
 * @param lastS container time of its last frame
 * @throws NudgebookError `bad-settings` when in does not lie before out within the take
 */
export function baseOf(timing: Pick<StepTiming, 'inS' | 'outS' | 'captureFactor' | 'timeScale'>, firstS: number, lastS: number): Base {
  const inS = Math.max(firstS, timing.inS ?? firstS);
  const outS = Math.min(lastS, timing.outS ?? lastS);
  if (inS > outS || (inS === outS && lastS > firstS)) {
    throw new NudgebookError(
      'bad-settings',
      `Nothing lies between the in point ${seconds(timing.inS ?? firstS)} and the out point ${seconds(timing.outS ?? lastS)}; `
      + `the take’s frames run from ${seconds(firstS)} to ${seconds(lastS)}.`,
      'Set the in point before the out point, both within the take.',
    );
  }
  return { inS, outS, sourcePerFilm: timing.captureFactor / timing.timeScale };
}

/** The warp of a timing; a straight line without marks. Errors as for {@link baseOf}. */
export function warpOf(timing: StepTiming, firstS: number, lastS: number): Warp {
  return makeWarp(anchorsOf(timing.marks ?? [], baseOf(timing, firstS, lastS)));
}

/**
 * The steps that start within the span from in to out, both ends included: a step that falls on the out point shows the
 * pose that was asked for there, and the last step never lies behind the last frame, where nothing was measured. There is
 * always at least one step. In and out points outside the take are drawn in to it.
 *
 * @param firstS container time of the take's first frame
 * @param lastS container time of its last frame
 * @param anchors to go by instead of those of the marks, where more than the marks ties the clocks
 * @throws NudgebookError `bad-settings` when in does not lie before out within the take, or for more than MOST_STEPS steps
 */
export function layOutSteps(timing: StepTiming, firstS: number, lastS: number, anchors?: readonly Anchor[]): Steps {
  const base = baseOf(timing, firstS, lastS);
  const { inS, outS, sourcePerFilm } = base;
  const retimed = anchors !== undefined || marksInForce(timing.marks ?? [], base).length > 0;
  const warp = retimed ? makeWarp(anchors ?? anchorsOf(timing.marks ?? [], base)) : null;
  const filmS = warp === null ? (outS - inS) / sourcePerFilm : warp.anchors.at(-1)!.filmS;
  const pattern = layOutHolds(timing.on, timing.holdSpans ?? [], filmS * timing.rate + TOLERANCE, MOST_STEPS);
  const exposure = Int32Array.from(pattern.exposure);
  // from whole numbers each time, so that nothing adds up
  const filmTimeS = Float64Array.from(pattern.exposure, (from) => (from - 1) / timing.rate);
  const sourceTimeS = filmTimeS.map((t) => (warp === null ? Math.min(outS, inS + t * sourcePerFilm) : warp.sourceAt(t)));
  return { count: exposure.length, exposure, holds: Int32Array.from(pattern.holds), filmTimeS, sourceTimeS };
}

function seconds(timeS: number): string {
  return `${timeS.toFixed(3)} s`;
}
