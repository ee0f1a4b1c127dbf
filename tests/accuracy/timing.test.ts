/** Timing of excursions on curves with a known shift, also when squeezed, and on variable frame rates. */
import { describe, expect, it } from 'vitest';
import { bestShift } from '../../scripts/accuracy/bestShift.ts';
import { excursions, parabolicPeakS } from '../../scripts/accuracy/excursions.ts';
import { frameOf, timing } from '../../scripts/accuracy/timing.ts';

const even = (count: number, rate: number): number[] => Array.from({ length: count }, (_, i) => i / rate);
/** A hill of 1.2 s about `centreS`, 80 degrees high. */
const hill = (t: number, centreS: number): number => {
  const u = (t - centreS) / 0.6;
  return Math.abs(u) < 1 ? 40 * (1 + Math.cos(Math.PI * u)) : 0;
};

describe('parabolic peak', () => {
  it('finds the vertex exactly between samples at any spacing', () => {
    const timesS = [0, 0.03, 0.1, 0.14];
    expect(parabolicPeakS(timesS, timesS.map((t) => 5 - 300 * (t - 0.083) ** 2), 2)).toBeCloseTo(0.083, 12);
  });

  it('keeps the sample at the ends and on a flat stretch', () => {
    expect(parabolicPeakS([0, 1, 2], [3, 2, 1], 0)).toBe(0);
    expect(parabolicPeakS([0, 1, 2], [3, 3, 3], 1)).toBe(1);
  });
});

describe('excursions', () => {
  it('are found once each, and a small hill is none', () => {
    const timesS = even(200, 30);
    const curve = timesS.map((t) => hill(t, 1.5) + 0.3 * hill(t, 3) + 0.95 * hill(t, 5));
    const found = excursions(timesS, curve);
    expect(found.map((e) => e.peakS.toFixed(2))).toEqual(['1.50', '5.00']);
    // Level 25 % of a raised cosine lies 2/3 of the half width from the middle; linear between samples of 1/30 s.
    expect(found[0]!.riseLowS).toBeCloseTo(1.5 - 0.4, 2);
    expect(found[0]!.fallHighS).toBeCloseTo(1.5 + 0.2, 2);
  });

  it('tell how long the extreme is held, and leave open what the clip cuts off', () => {
    const timesS = even(60, 30);
    const curve = timesS.map((t) => Math.min(50, t * 100));
    const [only] = excursions(timesS, curve);
    expect(only!.heldS).toBeCloseTo(59 / 30 - 0.5, 1);
    expect(only!.fallLowS).toBeNull();
    expect(excursions(timesS, timesS.map(() => 4))).toEqual([]);
  });
});

describe('timing', () => {
  const timesS = even(200, 30);
  const truth = timesS.map((t) => hill(t, 1.5) + 0.95 * hill(t, 4.9));

  it('sees a pure lag in every figure', () => {
    const late = timesS.map((t) => hill(t - 0.02, 1.5) + 0.95 * hill(t - 0.02, 4.9));
    for (const one of timing(timesS, truth, late)) {
      // 0.02 s at 30 frames a second; crossings on straight lines between samples leave a few hundredths.
      expect(one.lagFrames).toBeCloseTo(0.6, 1);
      expect(one.peakOffFrames).toBeCloseTo(0.6, 1);
    }
  });

  it('sees no lag in a curve that is squeezed and lifted', () => {
    for (const one of timing(timesS, truth, truth.map((v) => 20 + 0.5 * v))) {
      expect(one.lagFrames).toBeCloseTo(0, 9);
      expect(one.peakOffFrames).toBeCloseTo(0, 9);
    }
  });

  it('tells a curve that is too broad from one that is late', () => {
    // The same height, but 0.03 s earlier up and 0.03 s later down.
    const broad = timesS.map((t) => Math.max(hill(t + 0.03, 1.5), hill(t - 0.03, 1.5)));
    const [first] = timing(timesS, timesS.map((t) => hill(t, 1.5)), broad);
    expect(first!.riseOffFrames).toBeCloseTo(-0.9, 1);
    expect(first!.fallOffFrames).toBeCloseTo(0.9, 1);
    expect(first!.lagFrames).toBeCloseTo(0, 9);
  });

  it('says when an excursion was not seen at all', () => {
    const [first, second] = timing(timesS, truth, timesS.map((t) => hill(t, 1.5)));
    expect(first!.measured).not.toBeNull();
    expect(second!).toMatchObject({ measured: null, peakOffFrames: null, lagFrames: null });
  });

  it('counts in frames where they are unevenly spaced', () => {
    expect(frameOf([0, 0.1, 0.4, 0.5], 0.25)).toBeCloseTo(1.5, 12);
    expect(frameOf([0, 0.1, 0.4, 0.5], 0.5)).toBeCloseTo(3, 12);
  });
});

describe('shift of a whole curve', () => {
  const truth = even(150, 30).map((t) => hill(t, 1.5) + 0.6 * hill(t, 3.4));

  it('is found to a tenth of a frame, also when the curve is squeezed and lifted', () => {
    const late = even(150, 30).map((t) => 15 + 0.4 * (hill(t - 0.05, 1.5) + 0.6 * hill(t - 0.05, 3.4)));
    expect(bestShift(truth, late)).toBeCloseTo(1.5, 6);
    expect(bestShift(late, truth)).toBeCloseTo(-1.5, 6);
    expect(bestShift(truth, truth)).toBeCloseTo(0, 6);
  });

  it('is not told for a curve that does not follow at all', () => {
    expect(bestShift(truth, truth.map(() => 5))).toBeNull();
    expect(bestShift(truth, even(150, 30).map((t) => hill(t, 2.2)))).toBeNull();
  });
});
