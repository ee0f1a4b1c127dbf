/**
 * The error model from the tuning half: how strongly the slopes are held back, and by how much all is widened, is decided by
 * clips that were left out.
 */
import { ERROR_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import type { ErrorModel } from '../../src/motion/trust/errorModel.ts';
import { PREDICTOR_COUNT } from '../../src/motion/trust/predictors.ts';
import { checkLoss, fitQuantile, LEAST_DEG, predict, quantileOf, type Sample } from './quantileFit.ts';
import type { JointFrame } from './samples.ts';

const CLASSES = ERROR_CLASSES.length;
const FOLDS = 7;
/** Pulls tried, weak to strong; the second is that of a class's slopes to the shared ones. */
const RIDGES = [{ shared: 0.001, own: 0.002 }, { shared: 0.003, own: 0.01 }, { shared: 0.01, own: 0.04 }, { shared: 0.05, own: 0.2 }] as const;
/** No joint is said to be surer than this, degrees: the truth is that of drawn people. Our choice. */
const FLOOR_DEG = 1.5;
/** Share of a class's values that may be unsure in the tuning half; the demand is a fifth, and other clips will differ. Our choice. */
const UNSURE_SHARE = 0.16;
/** Errors up to this are never called unsure, degrees: a puppet's joint is set no better by eye. Our choice. */
const NEVER_UNSURE_DEG = 6;

export interface Made {
  readonly model: ErrorModel;
  readonly says: string;
}

/** @param frames of tuning clips only */
export function makeModel(frames: readonly JointFrame[]): Made {
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
      const fitted = fitQuantile(kept, CLASSES, PREDICTOR_COUNT, ridge);
      loss += checkLoss(fitted, out, CLASSES) / folds;
      for (const sample of out) left.push({ log: predict(fitted, sample), sample });
    }
    if (best === undefined || loss < best.loss) best = { loss, left, ridge };
  }
  const { left, ridge, loss } = best!;
  // what was said of clips left out against what came: log s' = a + b · log s
  const again = fitQuantile(
    left.map(({ log, sample }) => ({ errorClass: 0, clip: sample.clip * CLASSES + sample.errorClass, logError: sample.logError, x: Float64Array.of(log) })), 1, 1, { shared: 0, own: 0 },
  );
  const a = again.start[0]!;
  const b = again.slope[0]![0]!;
  const fitted = fitQuantile(samples, CLASSES, PREDICTOR_COUNT, ridge);
  const start = Array.from(fitted.start, (value) => a + b * value);
  const slope = fitted.slope.map((row) => Array.from(row, (value) => b * value));
  const most = ERROR_CLASSES.map((_, c) => Array.from({ length: PREDICTOR_COUNT }, (__, k) =>
    frames.reduce((largest, { errorClass, x }) => (errorClass === c ? Math.max(largest, x[k]!) : largest), 0)));
  const limitDeg = ERROR_CLASSES.map((_, c) => {
    const said = frames.filter(({ errorClass }) => errorClass === c)
      .map(({ x }) => Math.max(FLOOR_DEG, Math.exp(slope[c]!.reduce((sum, by, k) => sum + by * x[k]!, start[c]!))));
    return Math.max(NEVER_UNSURE_DEG, quantileOf(said, 1 - UNSURE_SHARE));
  });
  const rounded = (value: number): number => Number(value.toFixed(4));
  return {
    model: {
      start: start.map(rounded), slope: slope.map((row) => row.map(rounded)), most: most.map((row) => row.map(rounded)),
      limitDeg: limitDeg.map((value) => Number(value.toFixed(1))), floorDeg: FLOOR_DEG,
    },
    says: `Pull of the slopes ${ridge.shared} (shared), ${ridge.own} (own); check loss on clips left out ${loss.toFixed(4)}; log error there ${a.toFixed(3)} + ${b.toFixed(3)} × said.`,
  };
}

function samplesOf({ errorClass, clip, deg, x }: JointFrame): Sample[] {
  return deg.map((error) => ({ errorClass, clip, x, logError: Math.log(Math.max(LEAST_DEG, Math.abs(error))) }));
}
