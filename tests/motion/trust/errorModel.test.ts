/** The error model: rising, finite, reproducible on noise that is known; and that each doubt can be reached. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitQuantile, predict, type Sample } from '../../../scripts/calibrate/quantileFit.ts';
import { CALIBRATION } from '../../../src/motion/trust/calibration.ts';
import { ERROR_CLASSES, JOINT_CLASS, TURN_CLASSES } from '../../../src/motion/trust/errorClasses.ts';
import { doubtOf, errorDegOf } from '../../../src/motion/trust/errorModel.ts';
import {
  FREE_PREDICTORS, HALF, PREDICTOR_COUNT, PREDICTORS, STRAIGHT, TURN_PREDICTOR_COUNT, TURN_PREDICTORS, writeBend,
} from '../../../src/motion/trust/predictors.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED, UNSURE_FAR, UNSURE_HIDDEN, UNSURE_OUTSIDE } from '../../../src/motion/trust/unsure.ts';
import { JOINT, JOINT_COUNT } from '../../../src/motion/joints.ts';
import { writeQuat } from '../../../src/numeric/quaternion.ts';
import { gaussian, turnZ } from '../figure.ts';
import { SEEDED } from '../../numeric/arbitrary.ts';

const MODELS = (['read', 'fitted', 'alone'] as const).flatMap((key) => [
  { name: key, model: CALIBRATION[key], classes: ERROR_CLASSES, predictors: PREDICTORS },
  { name: `${key}, turn about the bone`, model: CALIBRATION.turn[key], classes: TURN_CLASSES, predictors: TURN_PREDICTORS },
]);

describe.each(MODELS)('the calibration, $name', ({ model, classes, predictors }) => {
  const isFree = (k: number): boolean => FREE_PREDICTORS.some((name) => name === predictors[k]);

  it('has a row for every class and a column for every predictor, no slope negative', () => {
    for (const table of [model.slope, model.most]) {
      expect(table).toHaveLength(classes.length);
      for (const row of table) expect([row.length, row.every((value, k) => value >= 0 || isFree(k))]).toEqual([predictors.length, true]);
    }
    expect(model.start).toHaveLength(classes.length);
    expect(model.limitDeg).toHaveLength(classes.length);
  });

  it('is finite, and no worse sign makes a joint surer', () => {
    const signs = fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { minLength: predictors.length, maxLength: predictors.length });
    const anySign = fc.constantFrom(...predictors.keys()).filter((k) => !isFree(k));
    fc.assert(fc.property(signs, fc.constantFrom(...classes.keys()), anySign, fc.double({ min: 0, max: 5, noNaN: true }), (x, c, k, more) => {
      const here = errorDegOf(model, c, Float64Array.from(x));
      const worse = errorDegOf(model, c, Float64Array.from(x, (value, i) => (i === k ? value + more : value)));
      expect(here).toBeGreaterThanOrEqual(model.floorDeg);
      // an error of more than half a turn would be none at all
      expect(here).toBeLessThan(180);
      expect(worse).toBeGreaterThanOrEqual(here);
    }), SEEDED);
  });
});

describe('the bend of elbow and knee, as the turn about the bone sees it', () => {
  const at = (deg: number): [number, number] => {
    const rotations = new Float64Array(JOINT_COUNT * 4);
    writeQuat(rotations, JOINT.leftElbow, turnZ((deg * Math.PI) / 180));
    writeQuat(rotations, JOINT.rightKnee, turnZ((-deg * Math.PI) / 180));
    const [arm, leg] = [new Float64Array(TURN_PREDICTOR_COUNT), new Float64Array(TURN_PREDICTOR_COUNT)];
    writeBend(rotations, 0, JOINT.leftWrist, arm);
    writeBend(rotations, 0, JOINT.rightHip, leg);
    expect(leg[STRAIGHT]!).toBeCloseTo(arm[STRAIGHT]!, 12);
    expect(arm.slice(0, PREDICTOR_COUNT).every((value) => value === 0)).toBe(true);
    return [arm[STRAIGHT]!, arm[HALF]!];
  };
  it('a straight limb shows nothing, one that is bent a little is half believed, a bent one is', () => {
    for (const [deg, straight, half] of [[0, 1, 0], [15, 1, 0], [35, 0.625, 1], [60, 0, 0], [120, 0, 0]] as const) {
      const [s, h] = at(deg);
      expect(s, `straight at ${deg}°`).toBeCloseTo(straight, 9);
      expect(h, `half at ${deg}°`).toBeCloseTo(half, 9);
    }
  });
});

it('the landmarks alone are trusted less than the fitted body, elbow and knee', () => {
  const plain = new Float64Array(PREDICTOR_COUNT);
  for (const name of ['elbow', 'knee'] as const) {
    const c = ERROR_CLASSES.indexOf(name);
    expect(errorDegOf(CALIBRATION.alone, c, plain)).toBeGreaterThan(errorDegOf(CALIBRATION.fitted, c, plain));
  }
});

it('every joint but the collar bones belongs to a class, left like right', () => {
  const left = JOINT_CLASS.filter(({ errorClass }) => errorClass >= 0);
  expect(left).toHaveLength(JOINT_CLASS.length - 2);
});

describe('doubts', () => {
  // a model in which each predictor alone can lift the error over the limit
  const model = {
    start: [0], slope: [PREDICTORS.map(() => 1)], most: [PREDICTORS.map(() => 4)], limitDeg: [Math.exp(2)], floorDeg: 1,
  };
  const by = (changes: Partial<Record<(typeof PREDICTORS)[number], number>>): number => {
    const x = Float64Array.from(PREDICTORS, (name) => changes[name] ?? 0);
    return doubtOf(model, 0, x, errorDegOf(model, 0, x));
  };
  it.each([
    ['lens', UNSURE_AT_LENS], ['unseen', UNSURE_HIDDEN], ['behind', UNSURE_HIDDEN], ['far', UNSURE_FAR], ['depth', UNSURE_FAR], ['jump', UNSURE_FAR], ['gap', UNSURE_BRIDGED],
  ] as const)('%s is the reason where it adds most', (name, bit) => {
    expect(by({ [name]: 3 })).toBe(bit);
    expect(by({ [name]: 2.5, bent: 1, quick: 1 })).toBe(bit);
  });
  it('none within the limit; beyond what was seen, whatever the error', () => {
    expect(by({ lens: 1.5 })).toBe(0);
    expect(by({ jump: 20 }) & UNSURE_OUTSIDE).toBe(UNSURE_OUTSIDE);
    expect(doubtOf({ ...model, limitDeg: [1e9] }, 0, Float64Array.from(PREDICTORS, (name) => (name === 'far' ? 9 : 0)), 10)).toBe(UNSURE_OUTSIDE);
  });
});

describe('quantile regression on noise that is known', () => {
  it('finds the sigma of normal errors that grow with a predictor, and covers 68 % in each fifth', () => {
    const random = gaussian(11);
    const made = Array.from({ length: 6000 }, (_, i): Sample & { sigma: number; error: number } => {
      const x = Float64Array.of((i * 0.6180339887) % 1, (i * 0.7548776662) % 1);
      const sigma = 3 * Math.exp(1.2 * x[0]!);
      const error = Math.abs(sigma * random());
      return { errorClass: i % 2, clip: i % 5, x, sigma, error, logError: Math.log(Math.max(0.2, error)) };
    });
    const fitted = fitQuantile(made, 2, 2, { shared: 1e-5, own: 1e-4 });
    for (const slope of fitted.slope) {
      // of 3000 values a quantile of log |error| has a standard error of 0.018, a slope over 0..1 one of 0.06; four of them
      expect(Math.abs(slope[0]! - 1.2)).toBeLessThan(0.25);
      expect(slope[1]!).toBeLessThan(0.25);
    }
    const bySaid = made.map((sample) => ({ ...sample, said: Math.exp(predict(fitted, sample)) })).sort((a, b) => a.said - b.said);
    for (let fifth = 0; fifth < 5; fifth++) {
      const some = bySaid.slice(fifth * 1200, (fifth + 1) * 1200);
      const within = some.filter(({ error, said }) => error <= said).length / some.length;
      // three standard errors of a share of 1200 are 4 %
      expect(Math.abs(within - 0.6827), `fifth ${fifth}`).toBeLessThan(0.05);
    }
  });

  it('gives no slope to a predictor that foretells the other way', () => {
    const random = gaussian(5);
    const made = Array.from({ length: 2000 }, (_, i): Sample => {
      const x = Float64Array.of((i % 100) / 100);
      return { errorClass: 0, clip: i % 4, x, logError: Math.log(Math.max(0.2, Math.abs(4 * Math.exp(-x[0]!) * random()))) };
    });
    expect(fitQuantile(made, 1, 1, { shared: 1e-3, own: 1e-3 }).slope[0]![0]!).toBeLessThan(1e-3);
  });
});
