/**
 * One sigma of a joint's angle from its predictors: log-linear, rising in every sign of trouble.
 *
 *   errorDeg = max(floor, exp(start[c] + Σ slope[c][k] · x[k]))
 *
 * for the joint's class c. Made by `scripts/calibrate` from clips whose truth is known: docs/errors.md.
 */
import { PREDICTORS } from './predictors.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED, UNSURE_FAR, UNSURE_HIDDEN, UNSURE_OUTSIDE } from './unsure.ts';

/** For the classes of ERROR_CLASSES (rows) and the predictors of PREDICTORS (columns); of the turn about the bone TURN_CLASSES and TURN_PREDICTORS. */
export interface ErrorModel {
  readonly start: readonly number[];
  /** None negative but those of FREE_PREDICTORS: a worse sign never makes a joint surer. */
  readonly slope: readonly (readonly number[])[];
  /** Largest value of each predictor that was seen in calibration; beyond a margin the model speaks of what it doesn't know. */
  readonly most: readonly (readonly number[])[];
  /** Error from which a joint of the class counts as unsure, degrees. */
  readonly limitDeg: readonly number[];
  /** No joint is surer than this, degrees. */
  readonly floorDeg: number;
}

/** Of a body fitted with what the reader says, of one fitted without it, of the landmarks alone. */
export interface ErrorModels {
  readonly read: ErrorModel;
  readonly fitted: ErrorModel;
  readonly alone: ErrorModel;
}

/** How a model came about; committed with it. */
export interface Certificate {
  readonly made: string;
  /** Clips that it was made on, and clips it was only held against. */
  readonly tuning: readonly string[];
  readonly reporting: readonly string[];
}

/** A predictor this much beyond the largest one seen is something that was never tried: a quarter, and half-way to plainly bad. Our choice. */
const MARGIN_TIMES = 1.25;
const MARGIN = 0.5;

/** Logarithm of the error. Predictors count up to what was seen and no farther: a straight line in the logarithm runs away. */
export function logErrorOf(model: ErrorModel, errorClass: number, x: Float64Array): number {
  let log = model.start[errorClass]!;
  const predictors = model.slope[errorClass]!.length;
  for (let k = 0; k < predictors; k++) log += partOf(model, errorClass, k, x[k]!);
  return log;
}

/** What one predictor adds to the logarithm. */
export function partOf(model: ErrorModel, errorClass: number, k: number, value: number): number {
  return model.slope[errorClass]![k]! * Math.min(value, model.most[errorClass]![k]!);
}

/** The error in degrees of its logarithm. */
export function fromLog(model: ErrorModel, log: number): number {
  return Math.max(model.floorDeg, Math.exp(log));
}

export function errorDegOf(model: ErrorModel, errorClass: number, x: Float64Array): number {
  return fromLog(model, logErrorOf(model, errorClass, x));
}

/** What the doubt is called when a predictor makes most of the error; those left out are never the reason by themselves. */
const REASON: Readonly<Partial<Record<(typeof PREDICTORS)[number], number>>> = {
  lens: UNSURE_AT_LENS, told: UNSURE_AT_LENS, apart: UNSURE_FAR, unseen: UNSURE_HIDDEN, behind: UNSURE_HIDDEN, far: UNSURE_FAR, depth: UNSURE_FAR, jump: UNSURE_FAR, gap: UNSURE_BRIDGED,
};
const REASON_OF = PREDICTORS.map((name) => REASON[name] ?? 0);
/** Predictors that can be a reason. */
const REASONING = REASON_OF.flatMap((bit, k) => (bit === 0 ? [] : [k]));

/**
 * Why a joint with this error is unsure: the predictor that adds most to it; 0 where the error is within the class's limit.
 * A value far beyond what was calibrated is told as such whatever the error.
 */
export function doubtOf(model: ErrorModel, errorClass: number, x: Float64Array, errorDeg: number): number {
  const outside = outsideOf(model, errorClass, x);
  return errorDeg > model.limitDeg[errorClass]! ? outside | reasonOf(model, errorClass, x) : outside;
}

/** UNSURE_OUTSIDE where a predictor lies far beyond what was calibrated, else 0. */
export function outsideOf(model: ErrorModel, errorClass: number, x: Float64Array): number {
  const most = model.most[errorClass]!;
  return REASONING.some((k) => x[k]! > most[k]! * MARGIN_TIMES + MARGIN) ? UNSURE_OUTSIDE : 0;
}

/** The bit to tell for an error that is too large. */
export function reasonOf(model: ErrorModel, errorClass: number, x: Float64Array): number {
  let largest = 0;
  let reason = UNSURE_FAR;
  for (const k of REASONING) {
    const part = partOf(model, errorClass, k, x[k]!);
    if (part > largest) {
      largest = part;
      reason = REASON_OF[k]!;
    }
  }
  return reason;
}
