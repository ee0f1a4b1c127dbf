/**
 * The errors of one clip, curve by curve, with all that they are sorted by.
 */
import { JOINT, JOINT_COUNT } from '../../src/motion/joints.ts';
import { STATE_BRIDGED, type Motion } from '../../src/motion/motion.ts';
import { ANGLE_NAMES, bodyAngles } from './bodyAngles.ts';
import { ANGLE_MEASURES, type Measure } from './measures.ts';
import { segmentsOfMotion } from './motionBody.ts';
import { MOVING_DEG_PER_S, movingFrames } from './moving.ts';
import { placeTruth, segmentsOfTruth } from './truthBody.ts';
import type { Truth } from './truthFile.ts';
import { measuredTurns, trueTurns, turnBetweenDeg } from './turnErrors.ts';

/** T values each. */
export interface ErrorSeries extends Measure {
  /** Degrees; of a whole turn, which has no one angle, NaN. */
  readonly trueDeg: readonly number[];
  /** Measured less true, or the angle between two turns; degrees; NaN where not measured. */
  readonly errorDeg: readonly number[];
  readonly moving: readonly boolean[];
  /** Flagged: one camera can't know it there, or it was bridged. */
  readonly unsure: readonly boolean[];
}

/** @param motion made of the clip that `truth` belongs to, one entry a frame */
export function errorSeries(truth: Truth, motion: Motion): ErrorSeries[] {
  const placed = truth.timesS.map((_, frame) => placeTruth(truth, frame));
  const trueAngles = placed.map((body) => bodyAngles(segmentsOfTruth(body)));
  const measuredAngles = truth.timesS.map((_, frame) => bodyAngles(segmentsOfMotion(motion, frame)));
  const unsureOf = ({ joint }: Measure): boolean[] => truth.timesS.map((_, frame) => {
    const at = frame * JOINT_COUNT + JOINT[joint];
    return motion.unsure[at] !== 0 || motion.state[at] === STATE_BRIDGED;
  });
  const angles = ANGLE_NAMES.map((name): ErrorSeries => {
    const measure = ANGLE_MEASURES[name];
    const trueDeg = trueAngles.map((of) => of[name]);
    const errorDeg = trueDeg.map((value, frame) => measuredAngles[frame]![name] - value);
    return { ...measure, trueDeg, errorDeg, moving: movingFrames(truth.timesS, trueDeg), unsure: unsureOf(measure) };
  });
  const told = placed.map(trueTurns);
  const seen = truth.timesS.map((_, frame) => measuredTurns(motion, frame));
  const turns = told[0]!.map(({ turnClass, joint }, k): ErrorSeries => {
    const measure: Measure = { measureClass: turnClass, joint };
    const last = truth.frames - 1;
    const moving = truth.timesS.map((_, frame) => {
      const [from, to] = [Math.max(0, frame - 1), Math.min(last, frame + 1)];
      const rate = turnBetweenDeg(told[from]![k]!.rotation, told[to]![k]!.rotation) / (truth.timesS[to]! - truth.timesS[from]!);
      return rate > MOVING_DEG_PER_S;
    });
    return {
      ...measure, trueDeg: truth.timesS.map(() => Number.NaN),
      errorDeg: truth.timesS.map((_, frame) => turnBetweenDeg(told[frame]![k]!.rotation, seen[frame]![k]!.rotation)),
      moving, unsure: unsureOf(measure),
    };
  });
  return [...angles, ...turns];
}
