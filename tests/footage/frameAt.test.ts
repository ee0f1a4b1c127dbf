import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAt, nearestFrame } from '../../src/footage/frameAt.ts';

const TIMES = [0, 0.033, 0.067, 0.1, 0.4];

describe('the frame on display', () => {
  it.each([[-1, 0], [0, 0], [0.0329, 0], [0.033, 1], [0.0999, 2], [0.1, 3], [0.39, 3], [0.4, 4], [99, 4]])('at %f s is %i', (t, index) => {
    expect(frameAt(TIMES, t)).toBe(index);
  });

  it('agrees with a search from end to end (property)', () => {
    const rising = fc.uniqueArray(fc.integer({ min: 0, max: 500 }), { minLength: 1, maxLength: 40 }).map((a) => a.sort((x, y) => x - y));
    fc.assert(fc.property(rising, fc.integer({ min: -10, max: 510 }), (times, t) => {
      const slow = Math.max(0, times.filter((x) => x <= t).length - 1);
      return frameAt(times, t) === slow;
    }), { seed: 1 });
  });
});

describe('the nearest frame', () => {
  it.each([[-1, 0], [0.016, 0], [0.0165, 0], [0.017, 1], [0.24, 3], [0.26, 4], [99, 4]])('to %f s is %i', (t, index) => {
    expect(nearestFrame(TIMES, t)).toBe(index);
  });
});
