import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GRIP_PX, gripPlaces } from '../../src/app/screens/pace/rail/gripPlaces.ts';

describe('the places of grips', () => {
  it('stay at their marks where there is room', () => {
    expect(gripPlaces([10, 100]).map(({ gripY }) => gripY)).toEqual([10, 100]);
  });

  it('make room for the one above, and no more', () => {
    expect(gripPlaces([10, 20, 200])).toEqual([{ markY: 10, gripY: 10, thin: false }, { markY: 20, gripY: 10 + GRIP_PX, thin: false }, { markY: 200, gripY: 200, thin: false }]);
  });

  it('whole grips never overlap nor stray, thin ones stand at their marks', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { maxLength: 40 }), (gaps) => {
      let at = 0;
      const places = gripPlaces(gaps.map((gap) => (at += gap)));
      const whole = places.filter(({ thin }) => !thin);
      for (const [k, { gripY, markY }] of whole.entries()) {
        if (k > 0) expect(gripY - whole[k - 1]!.gripY).toBeGreaterThanOrEqual(GRIP_PX - 1e-9);
        expect(gripY - markY).toBeLessThanOrEqual(2 * GRIP_PX);
      }
      for (const { thin, gripY, markY } of places) if (thin) expect(gripY).toBe(markY);
    }));
  });
});
