/**
 * What a change of timing does to a plan, before the new plan is there.
 *
 * A plan takes longer to make than a display frame lasts. But while marks are dragged, only the moments change that the steps
 * show, and much follows from these alone: when each step is, the joints' exact angles (the take's own curves, read at other
 * moments), where moves and pauses lie, and roughly how far each joint goes from step to step. Whatever depends on rounding, floor,
 * balance or lens has to wait for the plan.
 */
import { LIMBS } from '../timing/moments/moments.ts';
import { momentsOnSteps } from '../timing/moments/momentsOnSteps.ts';
import type { Steps } from '../timing/steps.ts';
import type { FrameAngles } from './makePlan.ts';
import { placeIn, type Place } from './placeIn.ts';
import type { Plan } from './plan.ts';

/**
 * The plan as it will be on other steps, as far as the steps alone tell.
 *
 * - exact: `exposure`, `holds`, `exposureCount`, `filmTimeS`, `sourceTimeS`.
 * - from the take's curves: `angleDeg` (in proportion between two frames; without what keeps pauses alive), `confidence`,
 *   `state`, `errorDeg`, `unsure` (of the nearer frame). `moments` by their times in the take.
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
  const nowAt = Array.from(sourceTimeS, (timeS) => placeIn(plan.sourceTimeS, timeS));
  return {
    ...plan,
    exposure, holds, filmTimeS, sourceTimeS,
    exposureCount: exposure[last]! + holds[last]! - 1,
    ...fromFrames(frames, sourceTimeS),
    incrementDeg: wayBetween(plan.incrementDeg, plan.joints.length, plan.sourceTimeS, nowAt),
    moments: momentsOnSteps(plan.moments, sourceTimeS),
    limbRates: ratesBetween(plan, filmTimeS, nowAt),
  };
}

function fromFrames({ joints, timesS, ...of }: FrameAngles, sourceTimeS: Float64Array): Pick<Plan, 'angleDeg' | 'confidence' | 'state' | 'errorDeg' | 'unsure'> {
  const width = joints.length;
  const size = sourceTimeS.length * width;
  const out = {
    angleDeg: new Float64Array(size), confidence: new Float32Array(size), state: new Uint8Array(size), errorDeg: new Float32Array(size), unsure: new Uint8Array(size),
  };
  sourceTimeS.forEach((timeS, s) => {
    const { low, high, share } = placeIn(timesS, timeS);
    const near = (share < 0.5 ? low : high) * width;
    for (let p = 0; p < width; p++) {
      const at = s * width + p;
      const [a, b] = [of.angleDeg[low * width + p]!, of.angleDeg[high * width + p]!];
      out.angleDeg[at] = share === 0 ? a : share === 1 ? b : a + (b - a) * share;
      out.confidence[at] = of.confidence[near + p]!;
      out.state[at] = of.state[near + p]!;
      out.errorDeg[at] = of.errorDeg[near + p]!;
      out.unsure[at] = of.unsure[near + p]!;
    }
  });
  return out;
}

/** Ways `[N·W]` since the step before, as they are between the steps at `nowAt`; NaN where the step nearby has none. */
function wayBetween(ways: Float64Array, width: number, wasAtS: Float64Array, nowAt: readonly Place[]): Float64Array {
  // summed where the take goes on; what keeps a held moment alive is no way through the take
  const sum = new Float64Array(ways.length);
  for (let s = 1; s < wasAtS.length; s++) {
    const goes = wasAtS[s]! > wasAtS[s - 1]!;
    for (let k = 0; k < width; k++) {
      const way = ways[s * width + k]!;
      sum[s * width + k] = sum[(s - 1) * width + k]! + (goes && !Number.isNaN(way) ? way : 0);
    }
  }
  const out = new Float64Array(nowAt.length * width);
  const at = ({ low, high, share }: Place, k: number): number => sum[low * width + k]! + (sum[high * width + k]! - sum[low * width + k]!) * share;
  nowAt.forEach((place, s) => {
    const near = (place.share < 0.5 ? place.low : place.high) * width;
    for (let k = 0; k < width; k++) out[s * width + k] = Number.isNaN(ways[near + k]!) ? Number.NaN : s === 0 ? 0 : at(place, k) - at(nowAt[s - 1]!, k);
  });
  return out;
}

function ratesBetween({ limbRates, sourceTimeS, filmTimeS: wasFilmS }: Plan, filmTimeS: Float64Array, nowAt: readonly Place[]): Plan['limbRates'] {
  const width = LIMBS.length;
  const way = (of: Float64Array): Float64Array => wayBetween(of, width, sourceTimeS, nowAt);
  const heights = limbRates.heightsPerS.map((perS, k) => perS * lasts(wasFilmS, Math.floor(k / width)));
  return { turnDeg: way(limbRates.turnDeg), endMm: way(limbRates.endMm), heightsPerS: way(heights).map((by, k) => by / lasts(filmTimeS, Math.floor(k / width))) };
}

/** Seconds of film since the step before; 1 at the first, whose way is 0. */
const lasts = (filmTimeS: Float64Array, s: number): number => (s === 0 ? 1 : filmTimeS[s]! - filmTimeS[s - 1]!);
