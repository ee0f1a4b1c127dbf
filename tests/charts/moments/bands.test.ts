/** Moves and pauses as bands: at their rows, closed outlines, and only what the window shows. */
import { expect, it } from 'vitest';
import { inWindow, moveOutline, moveWordY, pauseOutline, stepY } from '../../../src/charts/moments/momentBands.ts';
import { rowScale } from '../../../src/charts/rowScale.ts';

const rows = rowScale(100, 20);
const lane = { x: 10, widthPx: 30 };

it('a move begins and ends in the middle of its lane at its own rows and is widest at its peak', () => {
  const d = moveOutline(rows, { startStep: 2, peakStep: 4, endStep: 8 }, lane);
  expect(d.startsWith('M25,50')).toBe(true);
  expect(d).toContain(`40,${stepY(rows, 4)}`);
  expect(d).toContain(`25,${stepY(rows, 8)}`);
  expect(d.endsWith('z')).toBe(true);
});

it('a pause takes the whole rows of its steps', () => {
  expect(pauseOutline(rows, { fromStep: 3, toStep: 5 }, lane)).toBe('M19,61h12v58h-12z');
});

it('the word of a move stands before its peak, behind it where there is no room, and never leaves the band', () => {
  expect(moveWordY(100, 180, 300)).toBe(160);
  expect(moveWordY(10, 10, 150)).toBe(30);
  expect(moveWordY(100, 130, 300)).toBe(150);
  expect(moveWordY(100, 139, 142)).toBe(122);
});

it('only what reaches into the window is drawn', () => {
  const all = [[0, 3], [8, 12], [40, 60]] as const;
  expect(inWindow(all, ([from]) => from, ([, to]) => to, { first: 10, last: 30 })).toEqual([[8, 12]]);
});
