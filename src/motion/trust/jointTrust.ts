/**
 * How far each joint's angle is to be trusted at each frame: one sigma of its error, and whether one camera can know it at all.
 *
 * docs/errors.md says what the error is an error of, how it was calibrated and how well it holds.
 */
import { JOINT_COUNT } from '../joints.ts';
import { STATE_BRIDGED, STATE_MISSING } from '../motion.ts';
import { CALIBRATION } from './calibration.ts';
import { JOINT_CLASS } from './errorClasses.ts';
import { doubtOf, errorDegOf, type ErrorModel } from './errorModel.ts';
import { vouch } from './handSet.ts';
import { PREDICTOR_COUNT, writePredictors, type PredictorSource } from './predictors.ts';
import { markSwaps } from './swapped.ts';
import { UNSURE_BRIDGED, UNSURE_HIDDEN } from './unsure.ts';

export interface JointTrust {
  /** `[T·J]` degrees, one sigma; NaN where missing or not observable. */
  readonly errorDeg: Float32Array;
  /** `[T·J]` UNSURE_* bits; 0 where missing or not observable. */
  readonly unsure: Uint8Array;
}

/** A frame in which nobody was found is a guess, however short the gap; so is a joint that was out of sight. */
const GAP_AT = 5;

/**
 * @param state `[T·J]` STATE_* of the motion
 * @param model the calibration in force for what the angles were read from, unless told
 */
export function jointTrust(
  source: PredictorSource, state: Uint8Array, model: ErrorModel = source.body === null ? CALIBRATION.alone : CALIBRATION.fitted,
): JointTrust {
  const frames = source.performerS.length;
  const errorDeg = new Float32Array(frames * JOINT_COUNT).fill(Number.NaN);
  const unsure = new Uint8Array(frames * JOINT_COUNT);
  const x = new Float64Array(PREDICTOR_COUNT);
  for (let joint = 0; joint < JOINT_COUNT; joint++) {
    const { errorClass, share } = JOINT_CLASS[joint]!;
    if (errorClass < 0) continue;
    for (let t = 0; t < frames; t++) {
      const i = t * JOINT_COUNT + joint;
      if (state[i] === STATE_MISSING) continue;
      writePredictors(source, t, joint, x);
      const error = errorDegOf(model, errorClass, x);
      errorDeg[i] = share * error;
      const nobody = x[GAP_AT]! > 0 || source.visibility[i] === 0;
      unsure[i] = doubtOf(model, errorClass, x, error) | (nobody ? UNSURE_BRIDGED : state[i] === STATE_BRIDGED ? UNSURE_HIDDEN : 0);
    }
  }
  if (source.body !== null) {
    const { timesS, swaps, corrections } = source.body;
    markSwaps(unsure, timesS, swaps);
    for (let i = 0; i < unsure.length; i++) if (Number.isNaN(errorDeg[i]!)) unsure[i] = 0;
    if (corrections !== undefined) vouch(errorDeg, unsure, source.performerS, corrections, source.captureFactor, source.mirror);
  }
  return { errorDeg, unsure };
}
