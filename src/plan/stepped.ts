/** The performer on the steps of the film: marks, holds and extremes drawn to steps, and the poses there, also some steps earlier. */
import type { Motion } from '../motion/motion.ts';
import type { PosesLater } from '../puppet/applyArmature.ts';
import type { Poses } from '../timing/poses.ts';
import { sampleMotion } from '../timing/sampleMotion.ts';
import { snapExtremes } from '../timing/snap/snapExtremes.ts';
import type { TurningPoint } from '../timing/snap/turningPoints.ts';
import { layOutSteps, warpOf, type Steps, type StepTiming } from '../timing/steps.ts';
import type { TimingSettings } from '../timing/timingSettings.ts';
import type { Plan } from './plan.ts';

export interface Stepped {
  readonly steps: Steps;
  readonly bentTime: Plan['bentTime'];
  readonly posesAt: PosesLater;
}

/**
 * Arguments are those that the steps depend on, each by itself, so that a stage can compare them.
 *
 * @param points extremes to be drawn to steps
 */
export function putOnSteps(
  motion: Motion, inS: number | null, outS: number | null, captureFactor: number, rate: number, on: number, timeScale: number,
  marks: TimingSettings['marks'], holdSpans: TimingSettings['holdSpans'], points: readonly TurningPoint[],
): Stepped {
  const { timesS } = motion;
  const { steps, bentTime } = stepsOf({ inS, outS, captureFactor, rate, on, timeScale, marks, holdSpans }, timesS, points);
  return { steps, bentTime, posesAt: posesLater((delaySteps) => sampleMotion(motion, stepsBack(steps.sourceTimeS, delaySteps))) };
}

/** The steps alone. Errors as for layOutSteps. @param timesS of the take's frames @param points extremes to be drawn to steps */
export function stepsOf(timing: StepTiming, timesS: Float64Array, points: readonly TurningPoint[]): Pick<Stepped, 'steps' | 'bentTime'> {
  const [firstS, lastS] = [timesS[0]!, timesS[timesS.length - 1]!];
  const steps = layOutSteps(timing, firstS, lastS);
  if (points.length === 0) return { steps, bentTime: { bent: [], left: [] } };
  const { bent, left, anchors } = snapExtremes(warpOf(timing, firstS, lastS), steps.filmTimeS, points);
  return { steps: bent.length > 0 ? layOutSteps(timing, firstS, lastS, anchors) : steps, bentTime: { bent, left } };
}

/** Each lag made once. */
export function posesLater(make: PosesLater): PosesLater {
  const made = new Map<number, Poses>();
  return (delaySteps) => {
    let poses = made.get(delaySteps);
    if (poses === undefined) {
      poses = make(delaySteps);
      made.set(delaySteps, poses);
    }
    return poses;
  };
}

/** The source times so many steps earlier, between steps in proportion; before the first and after the last step those hold. */
function stepsBack(sourceTimeS: Float64Array, delaySteps: number): Float64Array {
  if (delaySteps === 0) return sourceTimeS;
  const last = sourceTimeS.length - 1;
  return sourceTimeS.map((_, s) => {
    const at = Math.min(last, Math.max(0, s - delaySteps));
    const low = Math.floor(at);
    const high = Math.min(last, low + 1);
    return sourceTimeS[low]! + (sourceTimeS[high]! - sourceTimeS[low]!) * (at - low);
  });
}
