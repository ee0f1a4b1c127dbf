import { describe, expect, it } from 'vitest';
import { incrementColumn } from '../../src/charts/incrementColumn.ts';
import { barProfile, rowSpans } from '../../src/charts/lowRows.ts';
import { rowScale } from '../../src/charts/rowScale.ts';

describe('rows that touch', () => {
  it('are one span as long as none is left out', () => {
    expect(rowSpans([0, 4, 8, 20, 24], 4)).toEqual([{ y: 0, height: 12 }, { y: 20, height: 8 }]);
    expect(rowSpans([], 4)).toEqual([]);
  });

  it('are one outline that goes along every bar and back on the line they start from', () => {
    expect(barProfile([{ y: 0, toX: 15 }, { y: 4, toX: 12.25 }], 10, 4)).toBe('M10.0,0H15.0V4H12.3V8H10.0z');
  });

  it('leave a row without a bar out', () => {
    expect(barProfile([{ y: 0, toX: 15 }, { y: 8, toX: 5 }], 10, 4)).toBe('M10.0,0H15.0V4H10.0zM10.0,8H5.0V12H10.0z');
    expect(barProfile([], 10, 4)).toBe('');
  });

  it('are told to the column of turns from the height on at which bars fill them', () => {
    const values = { value: () => 1, certainty: () => 'measured' as const };
    const touching = (rowPx: number): boolean => incrementColumn(rowScale(3, rowPx), { first: 0, last: 2 }, 60, [-2, 2], values).touching;
    expect([2, 4, 6, 24].map(touching)).toEqual([true, true, false, false]);
  });
});
