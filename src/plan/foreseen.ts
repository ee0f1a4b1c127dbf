/**
 * What a change of timing does to a plan, before the new plan is there.
 *
 * A plan takes longer to make than a display frame lasts. But while marks are dragged, only the moments change that the steps
 * show, and much follows from these alone: when each step is, the joints' exact angles (the take's own curves, read at other
 * moments), where moves and pauses lie, and roughly how far each joint goes from step to step. Whatever depends on rounding, floor,
 * balance or lens has to wait for the plan.
 */
import { LIMBS } from '../timing/moments/moments.ts';
import { momentsOnSteps, stepAt } from '../timing/moments/momentsOnSteps.ts';
import type { Steps } from '../timing/steps.ts';
import type { FrameAngles } from './makePlan.ts';
import type { Plan } from './plan.ts';

/**
 * The plan as it will be on other steps, as far as the steps alone tell.
 *
 * - exact: `exposure`, `holds`, `exposureCount`, `filmTimeS`, `sourceTimeS`.
 * - from the take's curves, where a step shows another moment than before: `angleDeg` (in proportion between two frames; without what
 *   keeps pauses alive), `confidence`, `state`, `errorDeg`, `turnErrorDeg`, `unsure` (the worse of both frames, as in `sampleMotion`). `moments` by their times in the take.
 * - resampled: `incrementDeg` and `limbRates` are the way that the former plan goes between the same two moments of the take; where the take
 *   is held, 0.
 * - everything else, orders in full and balance above all, is the former plan's, step by step, and may be wrong for a moment: to be
 *   looked at while a hand drags, never to be saved or followed.
 *
 * @param frames angles of the same joints at the frames of the take
 * @returns `null` where the number of steps changes: then no row stays what it was
 */
export function foreseenPlan(plan: Plan, frames: FrameAngles, { count, exposure, holds, filmTimeS, sourceTimeS }: Steps): Plan | null {
  if (count !== plan.stepCount || count === 0) return null;
  const last = count - 1;
  const rows = rowsThatChange(plan.sourceTimeS, sourceTimeS);
  return {
    ...plan,
    exposure, holds, filmTimeS, sourceTimeS,
    exposureCount: exposure[last]! + holds[last]! - 1,
    ...fromFrames(plan, frames, sourceTimeS, rows),
    incrementDeg: wayBetween(plan.incrementDeg, plan.joints.length, plan.sourceTimeS, rows),
    moments: momentsOnSteps(plan.moments, sourceTimeS),
    limbRates: ratesBetween(plan, filmTimeS, rows),
  };
}

/** Between entries `low` and `high` (the same or neighbours), by that share of the way from one to the other. */
interface Place {
  readonly low: number;
  readonly high: number;
  readonly share: number;
}

function placeIn(timesS: Float64Array, timeS: number): Place {
  const at = stepAt(timesS, timeS, 'last');
  const low = Math.floor(at);
  return { low, high: Math.ceil(at), share: at - low };
}

/** A step that shows another moment than before, or comes after one that does: between which former steps it and the one before it lie. */
interface ChangedRow {
  readonly step: number;
  readonly is: Place;
  readonly before: Place;
}

/** All others stay as they are, which a drag leaves most of. */
function rowsThatChange(wasAtS: Float64Array, isAtS: Float64Array): readonly ChangedRow[] {
  const out: ChangedRow[] = [];
  for (let s = 0; s < isAtS.length; s++) {
    const before = Math.max(0, s - 1);
    if (isAtS[s] === wasAtS[s] && isAtS[before] === wasAtS[before]) continue;
    out.push({ step: s, is: placeIn(wasAtS, isAtS[s]!), before: placeIn(wasAtS, isAtS[before]!) });
  }
  return out;
}

function fromFrames(
  plan: Plan, { joints, timesS, ...of }: FrameAngles, sourceTimeS: Float64Array, rows: readonly ChangedRow[],
): Pick<Plan, 'angleDeg' | 'confidence' | 'state' | 'errorDeg' | 'turnErrorDeg' | 'unsure'> {
  const width = joints.length;
  const out = {
    angleDeg: plan.angleDeg.slice(), confidence: plan.confidence.slice(), state: plan.state.slice(), errorDeg: plan.errorDeg.slice(),
    turnErrorDeg: plan.turnErrorDeg.slice(), unsure: plan.unsure.slice(),
  };
  for (const { step } of rows) {
    const { low, high, share } = placeIn(timesS, sourceTimeS[step]!);
    for (let p = 0; p < width; p++) {
      const at = step * width + p;
      const [a, b] = [low * width + p, high * width + p];
      out.angleDeg[at] = low === high ? of.angleDeg[a]! : of.angleDeg[a]! + (of.angleDeg[b]! - of.angleDeg[a]!) * share;
      out.confidence[at] = Math.min(of.confidence[a]!, of.confidence[b]!);
      out.state[at] = Math.max(of.state[a]!, of.state[b]!);
      out.errorDeg[at] = Math.max(of.errorDeg[a]!, of.errorDeg[b]!);
      out.turnErrorDeg[at] = Math.max(of.turnErrorDeg[a]!, of.turnErrorDeg[b]!);
      out.unsure[at] = of.unsure[a]! | of.unsure[b]!;
    }
  }
  return out;
}

/** Ways `[N·W]` since the step before, as they are between the places of a row; NaN where the former step nearby has none. */
function wayBetween(ways: Float64Array, width: number, wasAtS: Float64Array, rows: readonly ChangedRow[]): Float64Array {
  const out = ways.slice();
  if (rows.length === 0) return out;
  // summed over the former steps that the rows reach into
  const from = rows.reduce((least, { before }) => Math.min(least, before.low), Infinity);
  const to = rows.reduce((most, { is }) => Math.max(most, is.high), 0);
  const sum = new Float64Array((to - from + 1) * width);
  for (let s = from + 1; s <= to; s++) {
    // what keeps a held moment alive is no way through the take
    const goes = wasAtS[s]! > wasAtS[s - 1]!;
    for (let k = 0; k < width; k++) {
      const way = ways[s * width + k]!;
      sum[(s - from) * width + k] = sum[(s - 1 - from) * width + k]! + (goes && !Number.isNaN(way) ? way : 0);
    }
  }
  const at = ({ low, high, share }: Place, k: number): number => {
    const a = sum[(low - from) * width + k]!;
    return a + (sum[(high - from) * width + k]! - a) * share;
  };
  for (const { step, is, before } of rows) {
    const near = (is.share < 0.5 ? is.low : is.high) * width;
    for (let k = 0; k < width; k++) out[step * width + k] = Number.isNaN(ways[near + k]!) ? Number.NaN : step === 0 ? 0 : at(is, k) - at(before, k);
  }
  return out;
}

function ratesBetween({ limbRates, sourceTimeS, filmTimeS: wasFilmS }: Plan, filmTimeS: Float64Array, rows: readonly ChangedRow[]): Plan['limbRates'] {
  const width = LIMBS.length;
  const way = (of: Float64Array): Float64Array => wayBetween(of, width, sourceTimeS, rows);
  const heights = limbRates.heightsPerS.map((perS, k) => perS * lasts(wasFilmS, Math.floor(k / width)));
  return { turnDeg: way(limbRates.turnDeg), endMm: way(limbRates.endMm), heightsPerS: way(heights).map((by, k) => by / lasts(filmTimeS, Math.floor(k / width))) };
}

/** Seconds of film since the step before; 1 at the first, whose way is 0. */
const lasts = (filmTimeS: Float64Array, s: number): number => (s === 0 ? 1 : filmTimeS[s]! - filmTimeS[s - 1]!);
