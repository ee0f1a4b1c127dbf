/** The plumb line on paper, against points projected by hand. */
import { describe, expect, it } from 'vitest';
import { drawPlumb } from '../../../src/charts/figure/plumb.ts';
import { type Paper, VIEWS, viewAxes } from '../../../src/charts/figure/view.ts';
import type { Pen } from '../../../src/charts/skeleton.ts';

const PAPER: Paper = { centreMm: [0, 0, 0], pxPerMm: 2, widthPx: 200, heightPx: 400 };
const INK = { words: 'w', dim: 'd', edge: 'e', lamp: 'l', fontFamily: 'f' };

/** Points that lines begin at and go to, in order. */
function drawn(massMm: readonly [number, number, number], supportMm: readonly number[], which: 'own' | 'other' = 'own', dashes: number[][] = []): readonly (readonly [string, number, number])[] {
  const seen: [string, number, number][] = [];
  const nothing = (): void => undefined;
  const pen = {
    beginPath: nothing, stroke: nothing, setLineDash: (dash: number[]) => dashes.push(dash), arc: nothing,
    moveTo: (x: number, y: number) => seen.push(['move', x, y]), lineTo: (x: number, y: number) => seen.push(['line', x, y]),
  } as unknown as Pen;
  drawPlumb(pen, { massMm, supportMm }, viewAxes(VIEWS.front), PAPER, INK, which);
  return seen;
}

describe('the plumb line', () => {
  it('falls straight from the mass to the floor in a view from the front', () => {
    const [from, to] = drawn([10, 150, 0], []);
    expect(to![1]).toBeCloseTo(from![1], 9);
    expect(to![2] - from![2]).toBeCloseTo(150 * PAPER.pxPerMm, 9);
  });

  it('closes the outline of the base, drawn before the line', () => {
    const points = drawn([0, 100, 0], [-5, -5, 5, -5, 5, 5, -5, 5]).slice(0, 5);
    expect(points.map(([kind]) => kind)).toEqual(['move', 'line', 'line', 'line', 'line']);
    expect(points[4]!.slice(1)).toEqual(points[0]!.slice(1));
    expect(Math.abs(points[2]![1] - points[0]![1])).toBeCloseTo(10 * PAPER.pxPerMm, 9);
  });

  it('of another pose is dashed and without the outline, and leaves the pen whole', () => {
    const dashes: number[][] = [];
    const points = drawn([10, 150, 0], [-5, -5, 5, -5, 5, 5, -5, 5], 'other', dashes);
    // for the dark edge and for the line: line, two arms of the cross, start of the ring
    expect(points).toHaveLength(2 * 7);
    expect(dashes.map((dash) => dash.length > 0)).toEqual([true, true, false]);
  });

  it('draws nothing where the mass is not known', () => {
    expect(drawn([Number.NaN, 1, 1], [0, 0, 1, 0, 1, 1])).toEqual([]);
  });
});
