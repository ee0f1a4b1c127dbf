/**
 * Which moments of the take become steps of the film.
 *
 * Three clocks: the film's (exposures ÷ rate), the performer's own, and the container's. Film time = performer's time ×
 * timeScale; the container runs captureFactor times slower than the performer when the clip was shot that much faster
 * than it is stored. So step s (counted from 0) starts at film time s·on/rate, and its pose is that of the container's
 * time in + film time / timeScale × captureFactor.
 */
import { NudgebookError } from '../errors.ts';
import type { HoldSpan, TimeMark } from './timingSettings.ts';

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
  readonly marks?: readonly TimeMark[];
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

/** Part of a step by which rounding may push the last one beyond the end and it still counts. */
const TOLERANCE = 1e-6;

/**
 * The steps that start within the span from in to out, both ends included: a step that falls on the out point shows the
 * pose that was asked for there, and the last step never lies behind the last frame, where nothing was measured. There is
 * always at least one step. In and out points outside the take are drawn in to it.
 *
 * @param firstS container time of the take's first frame
 * @param lastS container time of its last frame
 * @throws NudgebookError `bad-settings` when in does not lie before out within the take, or for more than MOST_STEPS steps
 */
export function layOutSteps(timing: StepTiming, firstS: number, lastS: number): Steps {
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
  const stepS = timing.on / timing.rate;
  const sourcePerFilm = timing.captureFactor / timing.timeScale;
  const count = Math.floor((outS - inS) / sourcePerFilm / stepS + TOLERANCE) + 1;
  if (!(count <= MOST_STEPS)) {
    throw new NudgebookError(
      'bad-settings',
      `These settings would make ${count} steps; the most is ${MOST_STEPS}.`,
      'Choose a shorter part of the take, a lower rate, more exposures per pose, or a smaller time scale.',
    );
  }
  const exposure = new Int32Array(count);
  const filmTimeS = new Float64Array(count);
  const sourceTimeS = new Float64Array(count);
  for (let s = 0; s < count; s++) {
    exposure[s] = s * timing.on + 1;
    // from whole numbers each time, so that nothing adds up
    filmTimeS[s] = (s * timing.on) / timing.rate;
    sourceTimeS[s] = Math.min(outS, inS + filmTimeS[s]! * sourcePerFilm);
  }
  return { count, exposure, holds: new Int32Array(count).fill(timing.on), filmTimeS, sourceTimeS };
}

function seconds(timeS: number): string {
  return `${timeS.toFixed(3)} s`;
}
