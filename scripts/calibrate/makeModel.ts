/**
 * The error model from the tuning half: how strongly the slopes are held back, and by how much all is widened, is decided by
 * clips that were left out.
 */
import { ERROR_CLASSES, TURN_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import type { ErrorModel } from '../../src/motion/trust/errorModel.ts';
import { FREE_PREDICTORS, PREDICTOR_COUNT, PREDICTORS, TURN_PREDICTOR_COUNT } from '../../src/motion/trust/predictors.ts';
import { TURN_LIMIT_DEG } from '../../src/motion/trust/unsure.ts';
import { checkLoss, fitQuantile, LEAST_DEG, predict, quantileOf, type Sample } from './quantileFit.ts';
import type { JointFrame } from './samples.ts';

const FOLDS = 7;
/** Pulls tried, weak to strong; the second is that of a class's slopes to the shared ones. */
const RIDGES = [{ shared: 0.001, own: 0.002 }, { shared: 0.003, own: 0.01 }, { shared: 0.01, own: 0.04 }, { shared: 0.05, own: 0.2 }] as const;
/** No joint is said to be surer than this, degrees: the truth is that of drawn people. Our choice. */
const FLOOR_DEG = 1.5;
const FREE = FREE_PREDICTORS.map((name) => PREDICTORS.indexOf(name));
/**
 * Share of values that may be unsure or bridged in the tuning half; the demand is a fifth, and other clips will differ. Our
 * choice. Shoulders, elbows, hips and knees have one limit together, so that it falls where the errors are; others one each.
 */
const UNSURE_SHARE = 0.17;
const TOGETHER: readonly string[] = ['shoulder', 'elbow', 'hip', 'knee'];
/** An unsure joint stands out: its error is at least this many times the usual one of its class. Our choice. */
const STANDS_OUT = 1.5;
/** Errors up to this are never called unsure, degrees: a puppet's joint is set no better by eye. Our choice. */
const NEVER_UNSURE_DEG = 6;

export interface Made {
  readonly model: ErrorModel;
  readonly says: string;
}

/** @param frames of tuning clips only */
export function makeModel(frames: readonly JointFrame[]): Made {
  return fitModel(frames, ERROR_CLASSES, PREDICTOR_COUNT, (said) => {
    /** The error that leaves the wanted share of some classes above it, with what is bridged anyway. */
    const limitOf = (names: readonly string[]): number => {
      const some = frames.filter(({ errorClass }) => names.includes(ERROR_CLASSES[errorClass]!));
      return Math.max(NEVER_UNSURE_DEG, STANDS_OUT * quantileOf(some.map(said), 0.5), quantileOf(some.map((frame) => (frame.bridged ? 999 : said(frame))), 1 - UNSURE_SHARE));
    };
    const together = limitOf(TOGETHER);
    return ERROR_CLASSES.map((name) => (TOGETHER.includes(name) ? together : limitOf([name])));
  });
}

/** The same of the turn about the bone; its limit is our choice. @param frames of {@link turnFrames} */
export function makeTurnModel(frames: readonly JointFrame[]): Made {
  return fitModel(frames, TURN_CLASSES, TURN_PREDICTOR_COUNT, () => TURN_CLASSES.map(() => TURN_LIMIT_DEG));
}

/** @param limitsOf the limits of the classes, degrees, from what the model says of a frame */
function fitModel(
  frames: readonly JointFrame[], names: readonly string[], predictors: number, limitsOf: (said: (frame: JointFrame) => number) => readonly number[],
): Made {
  const classes = names.length;
  const samples = frames.flatMap(samplesOf);
  const clips = [...new Set(frames.map(({ clip }) => clip))];
  const folds = Math.min(FOLDS, clips.length);
  const foldOf = new Map(clips.map((clip, k) => [clip, k % folds]));
  let best: { loss: number; left: { log: number; sample: Sample }[]; ridge: (typeof RIDGES)[number] } | undefined;
  for (const ridge of RIDGES) {
    const left: { log: number; sample: Sample }[] = [];
    let loss = 0;
    for (let fold = 0; fold < folds; fold++) {
      const kept = samples.filter(({ clip }) => foldOf.get(clip) !== fold);
      const out = samples.filter(({ clip }) => foldOf.get(clip) === fold);
      const fitted = fitQuantile(kept, classes, predictors, ridge, FREE);
      loss += checkLoss(fitted, out, classes) / folds;
      for (const sample of out) left.push({ log: predict(fitted, sample), sample });
    }
    if (best === undefined || loss < best.loss) best = { loss, left, ridge };
  }
  const { left, ridge, loss } = best!;
  // what was said of clips left out against what came: log s' = a of the class + b · log s
  const again = fitQuantile(
    left.map(({ log, sample }) => ({ errorClass: sample.errorClass, clip: sample.clip, logError: sample.logError, x: Float64Array.of(log) })),
    classes, 1, { shared: 0, own: 1 },
  );
  const a = again.start;
  const b = again.slope.map((row) => row[0]!);
  const fitted = fitQuantile(samples, classes, predictors, ridge, FREE);
  const start = Array.from(fitted.start, (value, c) => a[c]! + b[c]! * value);
  const slope = fitted.slope.map((row, c) => Array.from(row, (value) => b[c]! * value));
  const most = names.map((_, c) => Array.from({ length: predictors }, (__, k) =>
    frames.reduce((largest, { errorClass, x }) => (errorClass === c ? Math.max(largest, x[k]!) : largest), 0)));
  const said = ({ errorClass, x }: JointFrame): number =>
    Math.max(FLOOR_DEG, Math.exp(slope[errorClass]!.reduce((sum, by, k) => sum + by * x[k]!, start[errorClass]!)));
  const wider = (c: number): number => {
    const usual = quantileOf(left.filter(({ sample }) => sample.errorClass === c).map(({ log }) => log), 0.5);
    return Math.exp(a[c]! + (b[c]! - 1) * usual);
  };
  const rounded = (value: number): number => Number(value.toFixed(4));
  return {
    model: {
      start: start.map(rounded), slope: slope.map((row) => row.map(rounded)), most: most.map((row) => row.map(rounded)),
      limitDeg: limitsOf(said).map((value) => Number(value.toFixed(1))), floorDeg: FLOOR_DEG,
    },
    says: `Pull of the slopes ${ridge.shared} (shared), ${ridge.own} (own); check loss on clips left out ${loss.toFixed(4)}; errors widened by that, at what is usual in each class: ${names.map((name, c) => `${name} × ${wider(c).toFixed(2)}`).join(', ')}.`,
  };
}

function samplesOf({ errorClass, clip, deg, x }: JointFrame): Sample[] {
  return deg.map((error) => ({ errorClass, clip, x, logError: Math.log(Math.max(LEAST_DEG, Math.abs(error))) }));
}
