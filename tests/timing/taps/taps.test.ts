import fc from 'fast-check';
import { expect, it } from 'vitest';
import { countTaps } from '../../../src/timing/taps/taps.ts';

it('counts taps in exposures, by hand', () => {
  expect(countTaps([0.51, 0, 1.01], 24)).toEqual([
    { filmS: 0, exposure: 1, sinceLast: 0 },
    { filmS: 0.5, exposure: 13, sinceLast: 12 },
    { filmS: 1, exposure: 25, sinceLast: 12 },
  ]);
  expect(countTaps([0.5, 0.505], 24)).toHaveLength(1);
});

it('rises, is whole, and lies within half an exposure of a tap', () => {
  fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 60, noNaN: true })), fc.constantFrom(12, 24, 25, 30), (tapsS, rate) => {
    const taps = countTaps(tapsS, rate);
    taps.forEach(({ filmS, exposure, sinceLast }, k) => {
      expect(Number.isInteger(exposure)).toBe(true);
      expect(k === 0 || sinceLast > 0).toBe(true);
      expect(tapsS.some((s) => Math.abs(s - filmS) <= 0.5 / rate + 1e-9)).toBe(true);
    });
  }));
});
