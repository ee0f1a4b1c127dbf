/** The error model: rising, finite, reproducible on noise that is known; and that each doubt can be reached. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitQuantile, predict, type Sample } from '../../../scripts/calibrate/quantileFit.ts';
import { CALIBRATION } from '../../../src/motion/trust/calibration.ts';
import { ERROR_CLASSES, JOINT_CLASS } from '../../../src/motion/trust/errorClasses.ts';
import { doubtOf, errorDegOf } from '../../../src/motion/trust/errorModel.ts';
import { FREE_PREDICTORS, PREDICTOR_COUNT, PREDICTORS } from '../../../src/motion/trust/predictors.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED, UNSURE_FAR, UNSURE_HIDDEN, UNSURE_OUTSIDE } from '../../../src/motion/trust/unsure.ts';
import { gaussian } from '../figure.ts';
import { SEEDED } from '../../numeric/arbitrary.ts';

const signs = fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { minLength: PREDICTOR_COUNT, maxLength: PREDICTOR_COUNT });
const anyClass = fc.integer({ min: 0, max: ERROR_CLASSES.length - 1 });

describe.each(['read', 'fitted', 'alone'] as const)('the calibration, %s', (key) => {
  const model = CALIBRATION[key];

  it('has a row for every class and a column for every predictor, no slope negative', () => {
    for (const table of [model.slope, model.most]) {
      expect(table).toHaveLength(ERROR_CLASSES.length);
      for (const row of table) expect([row.length, row.every((value, k) => value >= 0 || FREE_PREDICTORS.includes(PREDICTORS[k]!))]).toEqual([PREDICTOR_COUNT, true]);
    }
    expect(model.start).toHaveLength(ERROR_CLASSES.length);
    expect(model.limitDeg).toHaveLength(ERROR_CLASSES.length);
  });

  it('is finite, and no worse sign makes a joint surer', () => {
    fc.assert(fc.property(signs, anyClass, fc.integer({ min: 0, max: PREDICTOR_COUNT - 1 - FREE_PREDICTORS.length }), fc.double({ min: 0, max: 5, noNaN: true }), (x, c, k, more) => {
      const here = errorDegOf(model, c, Float64Array.from(x));
      const worse = errorDegOf(model, c, Float64Array.from(x, (value, i) => (i === k ? value + more : value)));
      expect(here).toBeGreaterThanOrEqual(model.floorDeg);
      // an error of more than half a turn would be none at all
      expect(here).toBeLessThan(180);
      expect(worse).toBeGreaterThanOrEqual(here);
    }), SEEDED);
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
