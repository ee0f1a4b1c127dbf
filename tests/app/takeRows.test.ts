import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heldRows, leastStepS, rowOfTime, timeOfRow } from '../../src/app/state/takeRows.ts';

const planOf = (...times: number[]): { stepCount: number; sourceTimeS: Float64Array } => ({ stepCount: times.length, sourceTimeS: Float64Array.from(times) });

describe('rows of moments of the take', () => {
  it('go by the steps themselves where these are retimed', () => {
    const plan = planOf(0, 0.1, 0.5, 0.6);
    expect(rowOfTime(plan, 0.5)).toBeCloseTo(2, 12);
    expect(rowOfTime(plan, 0.3)).toBeCloseTo(1.5, 12);
    expect(rowOfTime(plan, -0.1)).toBeCloseTo(-1, 12);
    expect(rowOfTime(plan, 0.8)).toBeCloseTo(5, 12);
  });

  it('a held moment stands at its first row, and its rows are a run', () => {
    const plan = planOf(0, 0.1, 0.1, 0.1, 0.2, 0.2);
    expect(rowOfTime(plan, 0.1)).toBeCloseTo(1, 12);
    expect(rowOfTime(plan, 0.15)).toBeCloseTo(3.5, 12);
    expect(rowOfTime(plan, 0.9)).toBe(5);
    expect(heldRows(plan)).toEqual([[1, 3], [4, 5]]);
    expect(leastStepS(plan)).toBeCloseTo(0.1, 12);
  });

  it('come back as the moments they were, for any rising steps', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0.001, max: 2, noNaN: true }), { minLength: 1, maxLength: 30 }), fc.double({ min: -1, max: 31, noNaN: true }), (gaps, row) => {
      let at = 0;
      const plan = planOf(0, ...gaps.map((gap) => (at += gap)));
      const inside = Math.max(0, Math.min(plan.stepCount - 1, row));
      expect(rowOfTime(plan, timeOfRow(plan, inside))).toBeCloseTo(inside, 6);
    }));
  });

  it('one step has one row and no spacing', () => {
    expect(rowOfTime(planOf(2), 7)).toBe(0);
    expect(timeOfRow(planOf(2), 3)).toBe(2);
    expect(leastStepS(planOf(2))).toBe(0);
  });
});
