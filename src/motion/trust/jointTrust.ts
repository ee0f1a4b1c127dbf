/**
 * How far each joint's angle is to be trusted at each frame: one sigma of its error, and whether one camera can know it at all.
 *
 * docs/errors.md says what the error is an error of, how it was calibrated and how well it holds.
 */
import type { FittedBody } from '../fit/fittedBody.ts';
import { JOINT_COUNT } from '../joints.ts';
import { STATE_BRIDGED, STATE_MISSING } from '../motion.ts';
import { CALIBRATION } from './calibration.ts';
import { JOINT_CLASS } from './errorClasses.ts';
import { fromLog, logErrorOf, outsideOf, partOf, reasonOf, type ErrorModel, type ErrorModels } from './errorModel.ts';
import { vouch } from './handSet.ts';
import {
  BENT, HALF, PREDICTORS, QUICK, STRAIGHT, TURN_PREDICTOR_COUNT, writeBend, writeMoving, writeSteady, type PredictorSource, type TrustGround,
} from './predictors.ts';
import { markSwaps } from './swapped.ts';
import { UNSURE_BRIDGED, UNSURE_HIDDEN } from './unsure.ts';

export interface JointTrust {
  /** `[T·J]` degrees, one sigma; NaN where missing or not observable. */
  readonly errorDeg: Float32Array;
  /** `[T·J]` degrees, one sigma of the turn about the joint's own bone; NaN where missing, not observable or without such a turn. */
  readonly turnErrorDeg: Float32Array;
  /** `[T·J]` UNSURE_* bits; 0 where missing or not observable. */
  readonly unsure: Uint8Array;
}

const GAP_AT = PREDICTORS.indexOf('gap');

/** What the angles are read from, by the name of its calibration. */
function readFrom(body: FittedBody | null): keyof ErrorModels {
  if (body === null) return 'alone';
  // a reader that has looked at a frame is never wholly sure of it
  return body.toldRad.some((sigma) => sigma > 0) ? 'read' : 'fitted';
}

/** What changes with the smoothing. */
function movingPart(model: ErrorModel, row: number, x: Float64Array): number {
  return partOf(model, row, BENT, x[BENT]!) + partOf(model, row, QUICK, x[QUICK]!);
}

/** What of the turn alone does. */
function bendPart(model: ErrorModel, row: number, x: Float64Array): number {
  return partOf(model, row, STRAIGHT, x[STRAIGHT]!) + partOf(model, row, HALF, x[HALF]!);
}

/**
 * What does not change with the smoothing, for a fitted body; without one the lie of the bones does.
 *
 * @param state `[T·J]` STATE_* of the motion
 */
export function trustGround(source: PredictorSource, state: Uint8Array): TrustGround {
  const from = readFrom(source.body);
  const model = CALIBRATION[from];
  const turnModel = CALIBRATION.turn[from];
  const frames = source.performerS.length;
  const log = new Float64Array(frames * JOINT_COUNT).fill(Number.NaN);
  const turnLog = log.slice();
  const always = new Uint8Array(frames * JOINT_COUNT);
  const above = new Uint8Array(frames * JOINT_COUNT);
  const x = new Float64Array(TURN_PREDICTOR_COUNT);
  for (let joint = 0; joint < JOINT_COUNT; joint++) {
    const { errorClass, turnClass } = JOINT_CLASS[joint]!;
    if (errorClass < 0) continue;
    for (let t = 0; t < frames; t++) {
      const i = t * JOINT_COUNT + joint;
      if (state[i] === STATE_MISSING) continue;
      writeSteady(source, t, joint, x);
      log[i] = logErrorOf(model, errorClass, x);
      if (turnClass >= 0) turnLog[i] = logErrorOf(turnModel, turnClass, x);
      above[i] = reasonOf(model, errorClass, x);
      // a frame in which nobody was found is a guess, however short the gap; so is a joint that was out of sight
      const nobody = x[GAP_AT]! > 0 || source.visibility[i] === 0;
      always[i] = outsideOf(model, errorClass, x) | (nobody ? UNSURE_BRIDGED : state[i] === STATE_BRIDGED ? UNSURE_HIDDEN : 0);
    }
  }
  return { log, turnLog, always, above };
}

/**
 * By the calibration in force for what the angles were read from.
 *
 * @param state `[T·J]` STATE_* of the motion
 */
export function jointTrust(source: PredictorSource, state: Uint8Array): JointTrust {
  const from = readFrom(source.body);
  const model = CALIBRATION[from];
  const turnModel = CALIBRATION.turn[from];
  const { log, turnLog, always, above } = source.ground ?? trustGround(source, state);
  const frames = source.performerS.length;
  const errorDeg = new Float32Array(frames * JOINT_COUNT).fill(Number.NaN);
  const turnErrorDeg = errorDeg.slice();
  const unsure = new Uint8Array(frames * JOINT_COUNT);
  const x = new Float64Array(TURN_PREDICTOR_COUNT);
  for (let t = 0; t < frames; t++) {
    for (let joint = 0; joint < JOINT_COUNT; joint++) {
      const i = t * JOINT_COUNT + joint;
      // also the joints that can't be seen, which have no class
      if (Number.isNaN(log[i]!)) continue;
      const { errorClass, share, turnClass } = JOINT_CLASS[joint]!;
      writeMoving(source, t, joint, x);
      const error = fromLog(model, log[i]! + movingPart(model, errorClass, x));
      errorDeg[i] = share * error;
      unsure[i] = error > model.limitDeg[errorClass]! ? always[i]! | above[i]! : always[i]!;
      if (turnClass < 0) continue;
      writeBend(source.rotations, t, joint, x);
      turnErrorDeg[i] = fromLog(turnModel, turnLog[i]! + movingPart(turnModel, turnClass, x) + bendPart(turnModel, turnClass, x));
    }
  }
  if (source.body !== null) {
    const { timesS, swaps, corrections } = source.body;
    markSwaps(unsure, timesS, swaps);
    for (let i = 0; i < unsure.length; i++) if (Number.isNaN(errorDeg[i]!)) unsure[i] = 0;
    if (corrections !== undefined) vouch(errorDeg, unsure, source.performerS, corrections, source.captureFactor, source.mirror);
  }
  return { errorDeg, turnErrorDeg, unsure };
}
