import { expect, it } from 'vitest';
import { clockHour, PLACES, rounded } from '../../src/export/rounding.ts';

it('an hour just past 12 is written as 12, not as 0, and one that is not known stays so', () => {
  const written = (hour: number): number | null => rounded(clockHour(hour), PLACES.hour);
  expect([0.004, 0.006, 6, 11.998, 12, Number.NaN].map(written)).toEqual([12, 0.01, 6, 12, 12, null]);
});
