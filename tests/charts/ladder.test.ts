import { describe, expect, it } from 'vitest';
import { mostMoving, turnSums } from '../../src/charts/amount.ts';
import { gapsAt } from '../../src/charts/certainty.ts';
import { ladder, NARROW_LADDER, WIDE_LADDER } from '../../src/charts/ladder.ts';
import { rowScale } from '../../src/charts/rowScale.ts';
import { samplePlan } from './samplePlan.ts';

const plan = samplePlan();
const { sums, largest } = turnSums(plan);
const input = {
  holds: () => plan.on,
  exposure: (i: number) => plan.exposure[i] ?? 0,
  turnSum: (i: number) => sums[i] ?? 0,
  largestTurnSum: largest,
  gaps: (i: number) => gapsAt(plan, i),
  isShot: (i: number) => i === 1,
  stands: () => null,
  byHand: () => undefined,
  balance: (i: number) => (i === 2 ? ('marginal' as const) : undefined),
};
const all = { first: 0, last: 5 };

describe('how much moves', () => {
  it('adds up the sizes of the known turns of joints that can be seen', () => {
    // Step 4 (index 3): head 1, elbow 11, knee 0.5. Step 5: head 2, knee 2.5, the elbow is missing.
    expect(sums[3]).toBeCloseTo(12.5, 9);
    expect(sums[4]).toBeCloseTo(4.5, 9);
    expect(largest).toBeCloseTo(12.5, 9);
  });

  it('names the joints that move most, in the order of the plan, and never one that cannot be seen', () => {
    expect(mostMoving(plan, 2)).toEqual(['head', 'leftElbow']);
    expect(mostMoving(plan, 9)).toEqual(['head', 'leftElbow', 'rightKnee']);
  });
});

describe('the ladder', () => {
  it('counts steps and exposures from 1', () => {
    const rungs = ladder(rowScale(6, 24), all, WIDE_LADDER, input);
    expect(rungs.map((r) => r.label)).toEqual(['1', '2', '3', '4', '5', '6']);
    expect(rungs.map((r) => r.exposures)).toEqual(['1–2', '3–4', '5–6', '7–8', '9–10', '11–12']);
  });

  it('gives the largest step the whole bar', () => {
    const rungs = ladder(rowScale(6, 24), all, WIDE_LADDER, input);
    expect(rungs[3]?.barPx).toBe(WIDE_LADDER.barWidthPx);
    expect(rungs[0]?.barPx).toBe(0);
  });

  it('marks a gap and a bridge by letter and number', () => {
    const rungs = ladder(rowScale(6, 24), all, WIDE_LADDER, input);
    expect(rungs.map((r) => r.markWord)).toEqual([undefined, undefined, 'B1', undefined, 'G1', undefined]);
  });

  it('keeps the marks where there is no room for letters', () => {
    const rungs = ladder(rowScale(6, 4), all, WIDE_LADDER, input);
    expect(rungs.map((r) => r.mark)).toEqual([undefined, undefined, 'bridged', undefined, 'gap', undefined]);
    expect(rungs.every((r) => r.markWord === undefined)).toBe(true);
  });

  it('writes every tenth number on the lowest rows', () => {
    const many = ladder(rowScale(40, 2), { first: 0, last: 39 }, NARROW_LADDER, input);
    expect(many.filter((r) => r.label !== undefined).map((r) => r.label)).toEqual(['10', '20', '30', '40']);
  });

  it('ticks the steps that were photographed', () => {
    expect(ladder(rowScale(6, 24), all, WIDE_LADDER, input).filter((r) => r.shot).map((r) => r.index)).toEqual([1]);
  });

  it('carries the balance of the steps that want a thought, and of no other', () => {
    expect(ladder(rowScale(6, 24), all, WIDE_LADDER, input).map((r) => r.balance)).toEqual([undefined, undefined, 'marginal', undefined, undefined, undefined]);
  });

  it.each([WIDE_LADDER, NARROW_LADDER])('has room for the sign of balance between the lanes of the feet and the box of the shot', ({ feetX, footPx, balanceX, shotX }) => {
    expect(balanceX - 5.5).toBeGreaterThan(feetX + footPx * 2.35);
    expect(balanceX + 5.5).toBeLessThan(shotX - 7);
  });

  it.each([WIDE_LADDER, NARROW_LADDER])('keeps its parts apart and inside its width', (layout) => {
    const order = [layout.numberX, layout.exposureX, layout.barX, layout.barX + layout.barWidthPx, layout.markX, layout.shotX - 7, layout.widthPx - 7];
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  });
});
