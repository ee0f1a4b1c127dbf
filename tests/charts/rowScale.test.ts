import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { edgeSpeed, isLabelled, labelEvery, nextRowPx, ROW_HEIGHTS_PX, rowScale, scrollAfterZoom, scrollToShow, windowOfRows } from '../../src/charts/rowScale.ts';

describe('the map between steps and pixels', () => {
  it('finds the row again from any height inside it', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 2000 }), fc.constantFrom(...ROW_HEIGHTS_PX), fc.double({ min: 0, max: 0.999, noNaN: true }), (count, rowPx, share) => {
      const rows = rowScale(count, rowPx);
      const index = Math.floor(count * share);
      expect(rows.indexAt(rows.top(index))).toBe(index);
      expect(rows.indexAt(rows.centre(index))).toBe(index);
      expect(rows.indexAt(rows.top(index) + rowPx - 0.01)).toBe(index);
    }));
  });

  it('stays inside the rows above the first and below the last', () => {
    const rows = rowScale(7, 24);
    expect(rows.indexAt(-50)).toBe(0);
    expect(rows.indexAt(5000)).toBe(6);
    expect(rows.heightPx).toBe(168);
  });

  it('draws at least what is in view, never rows that are not there', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 3000 }), fc.constantFrom(...ROW_HEIGHTS_PX), fc.integer({ min: 0, max: 60000 }), (count, rowPx, scroll) => {
      const rows = rowScale(count, rowPx);
      const scrollPx = Math.min(scroll, rows.heightPx);
      const { first, last } = windowOfRows(rows, scrollPx, 700, 8);
      expect(first).toBeGreaterThanOrEqual(0);
      expect(last).toBeLessThan(count);
      expect(first).toBeLessThanOrEqual(rows.indexAt(scrollPx));
      expect(last).toBeGreaterThanOrEqual(rows.indexAt(scrollPx + 699));
    }));
  });

  it('has nothing to draw without steps', () => {
    expect(windowOfRows(rowScale(0, 24), 0, 700, 8)).toEqual({ first: 0, last: -1 });
  });

  it('does not change the window for a scroll within a block', () => {
    const rows = rowScale(1000, 24);
    expect(windowOfRows(rows, 24 * 200 + 3, 720, 16)).toEqual(windowOfRows(rows, 24 * 200 + 20, 720, 16));
  });

  it('writes labels at least as far apart as asked', () => {
    expect(labelEvery(2, 16)).toBe(10);
    expect(labelEvery(8, 16)).toBe(2);
    expect(labelEvery(16, 16)).toBe(1);
    expect([0, 1, 8, 9, 19].filter((i) => isLabelled(i, 10, 3))).toEqual([0, 9, 19]);
    expect([0, 1, 8, 9, 19].filter((i) => isLabelled(i, 10, 2))).toEqual([9, 19]);
  });

  it('steps through the zoom levels and stops at both ends', () => {
    expect(nextRowPx(24, 1)).toBe(28);
    expect(nextRowPx(24, -1)).toBe(20);
    expect(nextRowPx(2, -1)).toBe(2);
    expect(nextRowPx(44, 1)).toBe(44);
    expect(nextRowPx(25, 1)).toBe(28);
  });

  it('scrolls only when the row is out of sight, and then as little as needed', () => {
    const rows = rowScale(100, 20);
    expect(scrollToShow(rows, 10, 100, 400, 40)).toBe(100);
    expect(scrollToShow(rows, 2, 100, 400, 40)).toBe(0);
    expect(scrollToShow(rows, 50, 100, 400, 40)).toBe(50 * 20 + 20 + 40 - 400);
  });

  it('keeps the playhead where it is in the view when rows change height', () => {
    const scrollPx = scrollAfterZoom(20, 44, 30, 500, 600);
    expect(30 * 44 - scrollPx).toBe(30 * 20 - 500);
  });

  it('keeps the uppermost row when the playhead is out of sight', () => {
    const scrollPx = scrollAfterZoom(20, 10, 90, 500, 600);
    expect(scrollPx).toBe(25 * 10);
  });
});

describe('rows under a drag', () => {
  it('lie still away from the edges, and run toward the edge that is near, faster the nearer', () => {
    expect(edgeSpeed(300, 100, 500)).toBe(0);
    expect(edgeSpeed(470, 100, 500)).toBeGreaterThan(0);
    expect(edgeSpeed(495, 100, 500)).toBeGreaterThan(edgeSpeed(470, 100, 500));
    expect(edgeSpeed(110, 100, 500)).toBe(-edgeSpeed(490, 100, 500));
    // beyond the edge no faster than so much
    expect(edgeSpeed(9000, 100, 500)).toBe(600);
    expect(edgeSpeed(-9000, 100, 500)).toBe(-600);
  });

  it('leave a middle that is still however low the view, and never move where there is none', () => {
    expect(edgeSpeed(110, 100, 120)).toBe(0);
    expect(edgeSpeed(100, 100, 100)).toBe(0);
  });
});
