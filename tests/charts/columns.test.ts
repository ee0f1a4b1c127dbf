/** What the drawings say, checked on what they are drawn from: nothing that was not measured may look as if it were. */
import { describe, expect, it } from 'vitest';
import { angleColumn, curveOfSteps, degreeDomain } from '../../src/charts/angleColumn.ts';
import { degreeTicks } from '../../src/charts/degreeAxis.ts';
import { incrementColumn, incrementDomain } from '../../src/charts/incrementColumn.ts';
import { angleValues, incrementValues } from '../../src/charts/jointValues.ts';
import { rowScale } from '../../src/charts/rowScale.ts';
import { doubtfulPlan } from './samplePlan.ts';

const plan = doubtfulPlan();
const ELBOW = 2;
const KNEE = 3;
const rows = rowScale(plan.stepCount, 20);
const all = { first: 0, last: 5 };

/** Line ends of a path made of M and L only, as [y of the start, y of the end]. */
function segments(path: string): [number, number][] {
  const out: [number, number][] = [];
  let at: [number, number] = [0, 0];
  for (const [, command, x, y] of path.matchAll(/([ML])(-?[\d.]+),(-?[\d.]+)/g)) {
    const to: [number, number] = [Number(x), Number(y)];
    if (command === 'L') out.push([at[1], to[1]]);
    at = to;
  }
  return out;
}

describe('the column of angles', () => {
  const values = angleValues(plan, ELBOW);
  const domain = degreeDomain(curveOfSteps(plan.stepCount, values));
  const column = angleColumn(rows, all, 100, domain, values);

  it('takes its scale from what is known', () => {
    expect(domain).toEqual([10, 42]);
  });

  it('puts each dot on the middle of its own row and at its own angle', () => {
    expect(column.dots.map((d) => [d.index, d.y])).toEqual([[0, 10], [1, 30], [2, 50], [3, 70], [5, 110]]);
    const [first] = column.dots;
    const last = column.dots.at(-1);
    expect(first?.x).toBeCloseTo(7, 9);
    expect(last?.x).toBeCloseTo(93, 9);
  });

  it('breaks at a gap: no line reaches the missing row from either side', () => {
    const lines = [...segments(column.solidPath), ...segments(column.dashedPath)];
    expect(lines.some(([from, to]) => from === 90 || to === 90)).toBe(false);
    expect(lines.some(([from, to]) => from === 70 && to === 110)).toBe(false);
    expect(column.missing).toEqual([{ y: 80, height: 20 }]);
  });

  it('draws the line whole only between measured steps, dashed where an end was bridged', () => {
    expect(segments(column.solidPath)).toEqual([[10, 30]]);
    expect(segments(column.dashedPath)).toEqual([[30, 50], [50, 70]]);
  });

  it('has a band of the error on both sides, apart where the value is unsure, and none in a gap', () => {
    // Bridged at step 3 (y 50), missing at step 5: sure from 10 to 50, unsure on to 70; the lone last step has no band.
    const withError = { ...curveOfSteps(plan.stepCount, values), errorDeg: () => 4 };
    const band = angleColumn(rows, all, 100, domain, values, withError);
    const ends = (path: string): number[] => [...path.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(([, , y]) => Number(y));
    expect(ends(band.bandPath)).toEqual([10, 30, 50, 50, 30, 10]);
    expect(ends(band.unsureBandPath)).toEqual([50, 70, 70, 50]);
    expect(column.bandPath).toBe('');
    // 32° over 86 px: the band is 8° wide, but ends at the edge of the column.
    const xs = [...band.bandPath.matchAll(/[ML](-?[\d.]+),30(?!\d)/g)].map(([, x]) => Number(x));
    expect(xs[1]! - xs[0]!).toBeCloseTo((8 / 32) * 86, 0);
    expect(Math.min(...[...band.bandPath.matchAll(/[ML](-?[\d.]+),/g)].map(([, x]) => Number(x)))).toBe(0);
  });

  it('hatches the row of the bridged step and no other', () => {
    expect(column.unsure).toEqual([{ y: 40, height: 20 }]);
    expect(column.dots.filter((d) => d.certainty === 'unsure').map((d) => d.index)).toEqual([2]);
  });

  it('hatches a measured value of low confidence as well', () => {
    expect(angleColumn(rows, all, 100, [0, 10], angleValues(plan, KNEE)).unsure).toEqual([{ y: 20, height: 20 }]);
  });

  it('leaves the dots out where they would touch, and keeps the curve', () => {
    const low = angleColumn(rowScale(6, 2), all, 100, domain, values);
    expect(low.dots).toEqual([]);
    expect(low.solidPath).not.toBe('');
  });

  it('draws what happens between the steps where it is told', () => {
    const curve = { length: 3, row: (i: number) => i / 2, value: (i: number) => 10 + i, certainty: () => 'measured' as const };
    expect(segments(angleColumn(rows, all, 100, [10, 12], values, curve).solidPath)).toEqual([[10, 20], [20, 30]]);
  });

  it('gives a joint that keeps still a scale on which it keeps still', () => {
    const [low, high] = degreeDomain({ length: 2, row: (i) => i, value: () => 30, certainty: () => 'measured' });
    expect([low, high]).toEqual([25, 35]);
  });

  it('has a scale even where nothing is known', () => {
    expect(degreeDomain({ length: 2, row: (i) => i, value: () => Number.NaN, certainty: () => 'missing' })).toEqual([0, 10]);
  });

  it('never writes NaN', () => {
    expect(column.solidPath + column.dashedPath).not.toMatch(/NaN/);
  });
});

describe('the ticks of a degree axis', () => {
  it('are round figures with a true minus', () => {
    expect(degreeTicks([-20, 20], 100, (v) => 50 + 2 * v).map((t) => t.label)).toEqual(['\u221220', '0', '20']);
  });

  it('are never one alone', () => {
    expect(degreeTicks([-16.7, 16.7], 54, (v) => 27 + 1.2 * v).map((t) => t.label)).toEqual(['\u221210', '10']);
  });

  it('leave out a figure that would run into the one before', () => {
    expect(degreeTicks([0, 47], 54, (v) => 7 + (v / 47) * 40).map((t) => t.label)).toEqual(['0', '40']);
  });
});

describe('the column of turns', () => {
  const values = incrementValues(plan, KNEE);
  const domain = incrementDomain(plan.stepCount, values, true);
  const column = incrementColumn(rows, all, 74, domain, values);

  it('has its zero in the middle where turns have a sign, at the left where they have a size only', () => {
    expect(domain).toEqual([-2.5, 2.5]);
    expect(column.zeroX).toBeCloseTo(37, 9);
    const head = incrementValues(plan, 0);
    expect(incrementColumn(rows, all, 74, incrementDomain(plan.stepCount, head, false), head).zeroX).toBeCloseTo(7, 9);
  });

  it('draws what is above zero to the right and what is below to the left', () => {
    const back = column.bars.find((b) => b.index === 2);
    const on = column.bars.find((b) => b.index === 4);
    expect((back?.x ?? 0) + (back?.width ?? 0)).toBeCloseTo(37, 9);
    expect(on?.x).toBeCloseTo(37, 9);
    expect(on?.width).toBeCloseTo(30, 9);
  });

  it('puts each bar on its own row', () => {
    expect(column.bars.map((b) => Math.floor(b.y / 20))).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('hatches a turn that starts or ends at an unsure pose', () => {
    expect(column.bars.filter((b) => b.certainty === 'unsure').map((b) => b.index)).toEqual([1, 2]);
  });

  it('draws no turn into or out of a gap', () => {
    const elbow = incrementValues(plan, ELBOW);
    const drawn = incrementColumn(rows, all, 74, incrementDomain(plan.stepCount, elbow, true), elbow);
    expect(drawn.bars.map((b) => b.index)).toEqual([0, 1, 2, 3]);
    expect(drawn.missing).toEqual([{ y: 80, height: 40 }]);
  });
});
