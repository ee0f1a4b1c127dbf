import { describe, expect, it } from 'vitest';
import { degreeScale, handCurve, handDomain, keyAt } from '../../src/charts/handCurve.ts';
import { rowScale } from '../../src/charts/rowScale.ts';

const rows = rowScale(40, 20);
const input = { keys: [{ row: 4, deg: 0 }, { row: 10, deg: 30 }], at: (at: readonly number[]): number[] => at.map((row) => Math.max(0, Math.min(30, (row - 4) * 5))), limitsDeg: { min: -5, max: 25 }, picked: 1 };

describe('a curve set by hand', () => {
  it('shows keys, limits and zero with room around them', () => {
    const [low, high] = handDomain(input);
    expect(low).toBeLessThan(-5);
    expect(high).toBeGreaterThan(30);
    expect(handDomain({ keys: [], limitsDeg: null })).toEqual([-10, 10]);
    // Limits that are none (a whole turn and more) don't flatten the curve.
    expect(handDomain({ keys: [], limitsDeg: { min: -720, max: 720 } })).toEqual([-10, 10]);
  });

  it('stands its keys in the middle of their rows and passes through them', () => {
    const domain = [-20, 60] as const;
    const curve = handCurve(rows, { first: 0, last: 20 }, 174, domain, input);
    const { x, deg } = degreeScale(domain, 174);
    expect(curve.keys).toEqual([{ key: 0, x: x(0), y: 90, picked: false }, { key: 1, x: x(30), y: 210, picked: true }]);
    expect(curve.path).toContain(`${x(30).toFixed(1)},210.0`);
    expect(deg(x(12.5))).toBeCloseTo(12.5, 9);
    expect(curve.zeroX).toBeCloseTo(x(0), 9);
  });

  it('hatches what the joint can’t reach, and drops keys out of sight', () => {
    const curve = handCurve(rows, { first: 8, last: 20 }, 174, [-20, 60], input);
    const { x } = degreeScale([-20, 60], 174);
    expect(curve.outside[1]!.x).toBeCloseTo(x(25), 9);
    expect(curve.keys.map((k) => k.key)).toEqual([1]);
  });

  it('finds the nearest key under a finger', () => {
    const curve = handCurve(rows, { first: 0, last: 20 }, 174, [-20, 60], input);
    const mark = curve.keys[1]!;
    expect(keyAt(curve, mark.x + 5, mark.y - 4, 12)).toBe(1);
    expect(keyAt(curve, mark.x + 50, mark.y, 12)).toBe(-1);
  });
});
