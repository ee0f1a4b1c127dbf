/** The sign of balance beside a step: where it is drawn, that signs differ by shape, and that low rows lose none of it. */
import { describe, expect, it } from 'vitest';
import { VERDICTS } from '../../../src/balance/balance.ts';
import { BALANCE_LEGEND, BALANCE_MARK_WORDS, BALANCE_MARKS, balanceMarkAt, type BalanceMark } from '../../../src/charts/poise/balanceMark.ts';
import { balanceMarkPaths, markRuns, SIGN_ROW_PX, type MarkedRow } from '../../../src/charts/poise/balanceMarkPaths.ts';

const rowsOf = (marks: readonly (BalanceMark | undefined)[], rowPx: number, first = 0): MarkedRow[] =>
  marks.map((balance, k) => ({ index: first + k, centreY: (first + k + 0.5) * rowPx, balance }));
const middles = (d: string): number => d.match(/M/g)?.length ?? 0;

describe('the mark of a step', () => {
  it('is nothing where the step holds, was not judged or is not there', () => {
    const standVerdict = Uint8Array.from(VERDICTS, (_, k) => k);
    expect(VERDICTS.map((_, k) => balanceMarkAt({ standVerdict }, k))).toEqual([undefined, 'marginal', 'tied', 'falls', 'in the air', undefined, undefined]);
    expect(balanceMarkAt({ standVerdict }, VERDICTS.length)).toBeUndefined();
  });

  it('has words of its own, all of them in the legend', () => {
    expect(new Set(Object.values(BALANCE_MARK_WORDS)).size).toBe(BALANCE_MARKS.length);
    for (const mark of BALANCE_MARKS) expect(BALANCE_LEGEND).toContain(BALANCE_MARK_WORDS[mark]);
  });
});

describe('signs down the rows', () => {
  it('differ from mark to mark by their shape alone', () => {
    const shapes = BALANCE_MARKS.map((mark) => balanceMarkPaths(rowsOf([mark], 24), 24, 50).filter(({ d }) => d !== '').map(({ d }) => d).join(' '));
    expect(new Set(shapes).size).toBe(BALANCE_MARKS.length);
  });

  it('stand on every marked row that is tall enough, within the row, and on no other', () => {
    const drawn = balanceMarkPaths(rowsOf(['marginal', undefined, 'marginal', 'falls'], SIGN_ROW_PX), SIGN_ROW_PX, 50).filter(({ d }) => d !== '');
    expect(drawn.map(({ name, title }) => [name, title])).toEqual([['balance-outline', BALANCE_MARK_WORDS.marginal], ['balance-full', BALANCE_MARK_WORDS.falls]]);
    const ys = [...drawn[0]!.d.matchAll(/M[\d.]+,([\d.]+)/g)].map(([, y]) => Number(y));
    expect(ys).toHaveLength(2);
    expect(ys[0]).toBeGreaterThanOrEqual(0);
    expect(ys[1]).toBeGreaterThanOrEqual(2 * SIGN_ROW_PX);
  });

  it('are one for each run where rows are low, with a line along all of the run', () => {
    const marks = [...Array<BalanceMark>(8).fill('marginal'), undefined, ...Array<BalanceMark>(6).fill('in the air')];
    const rows = rowsOf(marks, 4, 10);
    expect(markRuns(rows, 4)).toEqual([{ mark: 'marginal', fromY: 40, toY: 72 }, { mark: 'in the air', fromY: 76, toY: 100 }]);
    // a step that holds ends a run
    expect(markRuns(rowsOf(['falls', undefined, 'falls'], 4), 4)).toHaveLength(2);
    const drawn = balanceMarkPaths(rows, 4, 50).filter(({ d }) => d !== '');
    expect(drawn.filter(({ name }) => name === 'balance-run').map(({ d }) => d)).toEqual(['M50,40.0V72.0', 'M50,76.0V100.0']);
    expect(drawn.filter(({ name }) => name === 'balance-outline')).toHaveLength(2);
  });

  it('do not lie on each other on low rows: of two neighbours the graver stays', () => {
    const drawn = balanceMarkPaths(rowsOf(['marginal', 'falls', 'marginal'], 2), 2, 50).filter(({ d, name }) => d !== '' && name !== 'balance-run');
    expect(drawn.map(({ name }) => name)).toEqual(['balance-full']);
    expect(middles(drawn[0]!.d)).toBe(2);
  });
});
