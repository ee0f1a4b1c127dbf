/** Residual analysis, the finite differences behind it, and the Savitzky-Golay filter as a yardstick. */
import { describe, expect, it } from 'vitest';
import { butterworthLowPass, filtfilt } from '../../src/numeric/butterworth.ts';
import { factorPenalised, penalisedGain, roughnessOf, smoothPenalised } from '../../src/numeric/penalised.ts';
import { cutoffAtResidual, residualLine } from '../../src/numeric/residualAnalysis.ts';
import reference from './data/smoothing.json' with { type: 'json' };
import { savgolCoefficients, savgolFilter } from './savgol.ts';

describe('residual analysis, against the reference', () => {
  const { fs, n, sines, noise, firstFive, cutoffHz, residual, lineFromHz, lineToHz, slope, intercept, chosenHz } = reference.residualAnalysis;
  const x = Float64Array.from({ length: n }, (_, i) =>
    [...sines, ...noise].reduce((sum, [size, hz, phase]) => sum + size! * Math.sin((2 * Math.PI * hz! * i) / fs + phase!), 0));

  it('the same signal', () => {
    firstFive.forEach((v, k) => expect(Math.abs(x[k]! - v)).toBeLessThan(1e-12));
  });

  it('the same residuals, line and cut-off', () => {
    const residuals = cutoffHz.map((hz) => {
      const y = filtfilt(x, butterworthLowPass(fs, hz, 2));
      return Math.sqrt(y.reduce((sum, v, k) => sum + (v - x[k]!) ** 2, 0) / n);
    });
    // the filter agrees with scipy's to 1e-9 of values up to 36
    residuals.forEach((r, k) => expect(Math.abs(r - residual[k]!)).toBeLessThan(1e-9));
    const line = residualLine(cutoffHz, residuals, lineFromHz, lineToHz);
    expect(Math.abs(line.slope - slope)).toBeLessThan(1e-9);
    expect(Math.abs(line.intercept - intercept)).toBeLessThan(1e-9);
    expect(Math.abs(cutoffAtResidual(cutoffHz, residuals, line.intercept)! - chosenHz)).toBeLessThan(1e-8);
  });

  it('says where the curve begins below the level, or never comes down to it', () => {
    expect(cutoffAtResidual([1, 2, 3], [0.5, 0.4, 0.3], 1)).toBe(1);
    expect(cutoffAtResidual([1, 2, 3], [5, 4, 3], 1)).toBeNull();
    expect(cutoffAtResidual([1, 2, 3], [5, 4, 3], 3.5)).toBe(2.5);
  });
});

describe('Savitzky & Golay 1964, for comparison only', () => {
  it.each(reference.savgolCoefficients)('window $window, degree $polyorder, derivative $deriv', ({ window, polyorder, deriv, delta, coefficients }) => {
    savgolCoefficients(window, polyorder, deriv, delta).forEach((c, k) => expect(Math.abs(c - coefficients[k]!)).toBeLessThan(1e-12));
  });

  it.each(reference.savgolFilter)('filters with window $window, degree $polyorder, derivative $deriv', ({ x, window, polyorder, deriv, delta, y }) => {
    // derivatives by 24² lose three digits
    savgolFilter(x, window, polyorder, deriv, delta).forEach((v, k) => expect(Math.abs(v - y[k]!)).toBeLessThan(1e-9));
  });

  it('the penalised smoother trembles less than it for the same move kept at 2 Hz', () => {
    // 30 samples a second: white noise through either, by the sum of squares of the weights of second differences
    const rough = (weights: ArrayLike<number>): number => {
      let sum = 0;
      const at = (k: number): number => weights[k] ?? 0;
      for (let k = -1; k <= weights.length; k++) sum += (at(k - 1) - 2 * at(k) + at(k + 1)) ** 2;
      return Math.sqrt(sum / 6);
    };
    const window = 11;
    const row = savgolCoefficients(window, 2, 0, 1);
    const kept = row.reduce((sum, c, k) => sum + c * Math.cos((2 * Math.PI * 2 * (k - 5)) / 30), 0);
    const stiffness = (1 / kept - 1) / (2 * Math.sin((Math.PI * 2) / 30)) ** 6;
    expect(penalisedGain(2 / 30, 3, stiffness)).toBeCloseTo(kept, 12);
    const impulse = new Float64Array(121);
    impulse[60] = 1;
    smoothPenalised(factorPenalised(roughnessOf(impulse.map((_, k) => k), 1, 3, stiffness), null), impulse);
    expect(rough(impulse)).toBeLessThan(0.6 * rough(row));
  });
});

describe('the frequency law of smoothing splines (Woltring)', () => {
  it('holds for the penalised smoother too, as far below the sample rate as it is meant for', () => {
    const { fs, lambda, f0Hz, ratioAndMeasuredGain } = reference.frequencyLaw;
    for (const [ratio, measured] of ratioAndMeasuredGain) {
      // sums instead of integrals: 2·sin(x/2) for x, 1 % at 0.08 of the sample rate, to the fourth power
      expect(Math.abs(penalisedGain((ratio! * f0Hz) / fs, 2, lambda * fs ** 3) - measured!)).toBeLessThan(0.015);
    }
  });
});
