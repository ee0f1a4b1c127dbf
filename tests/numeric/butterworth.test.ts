import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { butterworthLowPass, filtfilt, passCorrection } from '../../src/numeric/butterworth.ts';
import { SEEDED } from './arbitrary.ts';
import reference from './data/butterworth.json' with { type: 'json' };

const CLOSE = 1e-9;

describe('against scipy, Winter, and Robertson & Dowling', () => {
  it('corrects for two passes by 0.802', () => {
    expect(Math.abs(passCorrection(2) - reference.correction)).toBeLessThan(1e-15);
    expect(passCorrection(1)).toBe(1);
  });

  it.each(reference.cases)('coefficients at $fs Hz, cut-off $fc Hz', ({ fs, fc: cutoff, uncorrected, corrected }) => {
    for (const [passes, expected] of [[1, uncorrected], [2, corrected]] as const) {
      const f = butterworthLowPass(fs, cutoff, passes);
      const got = [f.b0, f.b1, f.b2, 1, f.a1, f.a2];
      [...expected.b, ...expected.a].forEach((value, k) => expect(Math.abs(got[k]! - value)).toBeLessThan(CLOSE));
    }
  });

  it.each(reference.filtfilt)('filtfilt $name', ({ x, fs, fc: cutoff, corrected, padlen, y }) => {
    const got = filtfilt(x, butterworthLowPass(fs, cutoff, corrected ? 2 : 1), padlen);
    expect(got.length).toBe(y.length);
    got.forEach((value, k) => expect(Math.abs(value - y[k]!)).toBeLessThan(CLOSE));
  });
});

describe('laws', () => {
  const series = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 12, maxLength: 60 });

  it('two passes have the gain 1/√2 at the cut-off', () => {
    for (const cutoff of [1, 3, 6]) {
      const fs = 30;
      const n = 3000;
      const x = Float64Array.from({ length: n }, (_, k) => Math.cos((2 * Math.PI * cutoff * (k - n / 2)) / fs));
      expect(filtfilt(x, butterworthLowPass(fs, cutoff, 2))[n / 2]).toBeCloseTo(Math.SQRT1_2, 9);
    }
  });

  it('a constant stays constant', () => {
    fc.assert(fc.property(fc.double({ min: -10, max: 10, noNaN: true }), (c) => {
      filtfilt(new Float64Array(30).fill(c), butterworthLowPass(30, 6, 2)).forEach((y) => {
        expect(Math.abs(y - c)).toBeLessThan(1e-12);
      });
    }), SEEDED);
  });

  it('a straight line stays a straight line, with room for the start state to die away', () => {
    const x = Float64Array.from({ length: 60 }, (_, k) => 3 - 0.7 * k);
    filtfilt(x, butterworthLowPass(30, 3, 2), 40).forEach((y, k) => {
      // the constant start state is wrong by one slope; 40 samples at 3 Hz of 30 leave a 1e-7 part of it
      expect(Math.abs(y - x[k]!)).toBeLessThan(1e-5);
    });
  });

  it('forward and backward in time are alike', () => {
    const long = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 50, maxLength: 80 });
    fc.assert(fc.property(long, (x) => {
      // The two passes differ only by what is left of the start states: 49 samples at 8 Hz of 30 leave next to nothing.
      const filter = butterworthLowPass(30, 8, 2);
      const forth = filtfilt(x, filter, 49);
      const back = filtfilt([...x].reverse(), filter, 49).reverse();
      forth.forEach((y, k) => expect(Math.abs(y - back[k]!)).toBeLessThan(1e-9));
    }), SEEDED);
  });

  it('adds: the smooth of a sum is the sum of the smooths', () => {
    fc.assert(fc.property(series, fc.double({ min: -3, max: 3, noNaN: true }), (x, by) => {
      const filter = butterworthLowPass(25, 5, 2);
      const other = x.map((_, k) => Math.sin(k * k));
      const sum = filtfilt(x.map((v, k) => v + by * other[k]!), filter);
      const a = filtfilt(x, filter);
      const b = filtfilt(other, filter);
      sum.forEach((y, k) => expect(Math.abs(y - a[k]! - by * b[k]!)).toBeLessThan(1e-11));
    }), SEEDED);
  });
});
