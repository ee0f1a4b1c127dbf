import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GRIP_PX, gripPlaces, THIN_PX } from '../../src/app/screens/pace/rail/gripPlaces.ts';

describe('the places of grips', () => {
  it('stay at their marks where there is room', () => {
    expect(gripPlaces([10, 100]).map(({ gripY }) => gripY)).toEqual([10, 100]);
  });

  it('make room for the one above, and no more', () => {
    expect(gripPlaces([10, 20, 200]).map(({ markY, gripY, thin }) => ({ markY, gripY, thin }))).toEqual([{ markY: 10, gripY: 10, thin: false }, { markY: 20, gripY: 10 + GRIP_PX, thin: false }, { markY: 200, gripY: 200, thin: false }]);
  });

  it('small ones are taken hold of as far as there is room, and never in two at once', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { maxLength: 40 }), (gaps) => {
      let at = 0;
      const places = [...gripPlaces(gaps.map((gap) => (at += gap)))].sort((a, b) => a.gripY - b.gripY);
      places.forEach((place, k) => {
        const next = places[k + 1];
        if (next === undefined || !place.thin || !next.thin) return;
        const [end, begin] = [place.gripY + THIN_PX / 2 + place.belowPx, next.gripY - THIN_PX / 2 - next.abovePx];
        // nearer than their own height they cannot help it
        if (next.gripY - place.gripY >= THIN_PX) expect(end).toBeLessThanOrEqual(begin + 1e-9);
      });
    }));
    // ten marks in a heap: the last of them, which stand alone below, may be taken within 16 px
    expect(gripPlaces([0, 1, 2, 3, 4, 100.5]).at(-2)!.belowPx).toBeGreaterThan(5);
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
