/** Quantiles of chi-square against tables. */
import { describe, expect, it } from 'vitest';
import { chiSquarePart } from '../../src/numeric/chiSquare.ts';

describe('quantiles of the mean of squared noise', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4 (upper critical values of chi-square; from memory): z = 1.6449 is 95 %, 2.3263 is 99 %
  it.each([
    { degrees: 1, z: 1.6449, quantile: 3.841 }, { degrees: 3, z: 1.6449, quantile: 7.815 }, { degrees: 9, z: 1.6449, quantile: 16.919 }, { degrees: 50, z: 1.6449, quantile: 67.505 },
    { degrees: 1, z: 2.3263, quantile: 6.635 }, { degrees: 3, z: 2.3263, quantile: 11.345 }, { degrees: 9, z: 2.3263, quantile: 21.666 }, { degrees: 50, z: 2.3263, quantile: 76.154 },
  ])('of $degrees degrees at $z sigmas', ({ degrees, z, quantile }) => {
    expect(Math.abs((chiSquarePart(z, degrees) * degrees) / quantile - 1)).toBeLessThan(0.03);
  });

  it('is never below nothing', () => expect(chiSquarePart(-9, 1)).toBe(0));
});
