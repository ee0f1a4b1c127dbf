import { describe, expect, it } from 'vitest';
import { keyAdded, keyChanged, keyRemoved, keysOf, withKeys } from '../../../src/app/screens/puppet/edits/curveKeys.ts';
import type { CurveKey } from '../../../src/puppet/puppetSettings.ts';

const key = (timeS: number, valueDeg: number): CurveKey => ({ timeS, valueDeg, ease: 'smooth' });
const KEYS = [key(1, 0), key(2, 20), key(3, 5)];

describe('keys of a hand-set curve', () => {
  it('are kept by joint and axis, and a curve without keys is let go', () => {
    const curves = withKeys([], 'tail', 'right', KEYS);
    expect(keysOf(curves, 'tail', 'right')).toBe(KEYS);
    expect(keysOf(curves, 'tail', 'up')).toEqual([]);
    const two = withKeys(curves, 'tail', 'up', [key(0, 1)]);
    expect(two.length).toBe(2);
    expect(withKeys(two, 'tail', 'right', [])).toEqual([{ joint: 'tail', axis: 'up', keys: [key(0, 1)] }]);
  });

  it('come in by their moment; a second at the same moment sets the first anew', () => {
    const added = keyAdded(KEYS, key(2.5, 9));
    expect(added.keys.map((k) => k.timeS)).toEqual([1, 2, 2.5, 3]);
    expect(added.index).toBe(2);
    const set = keyAdded(KEYS, { ...key(2 + 1e-9, 9), ease: 'stay' });
    expect(set.keys.length).toBe(3);
    expect(set.keys[set.index]).toEqual(key(2, 9));
  });

  it('are never dragged through each other', () => {
    expect(keyChanged(KEYS, 1, { timeS: 99 }, 0.1)[1]?.timeS).toBeCloseTo(2.9, 12);
    expect(keyChanged(KEYS, 1, { timeS: -99, valueDeg: 7 }, 0.1)[1]).toMatchObject({ timeS: 1.1, valueDeg: 7 });
    // Between neighbours that are nearer than two steps there is no room to move.
    expect(keyChanged([key(1, 0), key(1.05, 1), key(1.1, 2)], 1, { timeS: 1.08 }, 0.1)[1]?.timeS).toBe(1.05);
    expect(keyChanged(KEYS, 7, { timeS: 1 }, 0.1)).toBe(KEYS);
    expect(keyRemoved(KEYS, 0).map((k) => k.timeS)).toEqual([2, 3]);
  });
});
