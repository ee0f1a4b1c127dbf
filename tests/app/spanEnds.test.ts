import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { END_PX, endPlaces, spanBetween, spanWithin } from '../../src/app/screens/pace/span/spanEnds.ts';

describe('the ends of a span on the rows', () => {
  it('are taken hold of at the very ends of a long one', () => {
    expect(endPlaces([10, 29], 24)).toEqual({ fromY: 240, toY: 720 - END_PX });
  });

  it('never lie on each other, nor above the first row, however short the span and low the rows', () => {
    fc.assert(fc.property(fc.nat(200), fc.nat(50), fc.constantFrom(2, 6, 24, 44), (from, more, rowPx) => {
      const { fromY, toY } = endPlaces([from, from + more], rowPx);
      expect(fromY).toBeGreaterThanOrEqual(0);
      expect(toY - fromY).toBeGreaterThanOrEqual(END_PX);
    }));
  });

  it('are put in order when one is drawn beyond the other', () => {
    expect(spanBetween(9, 4)).toEqual([4, 9]);
    expect(spanBetween(4, 4)).toEqual([4, 4]);
  });

  it('stay within a plan that has become shorter', () => {
    expect(spanWithin([5, 80], 60)).toEqual([5, 59]);
    expect(spanWithin([70, 80], 60)).toEqual([59, 59]);
    expect(spanWithin(null, 60)).toBeNull();
    expect(spanWithin([1, 2], 0)).toBeNull();
  });
});
