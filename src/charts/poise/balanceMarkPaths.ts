/** Signs of balance down the rows of the ladder: one a row where rows are tall enough, else one a run with a line along it. */
import { BALANCE_MARKS, BALANCE_MARK_WORDS, type BalanceMark } from './balanceMark.ts';
import { isFull, verdictPath } from './verdictSigns.ts';

/** Row height from which every row carries its own sign; half a sign's height is at most `MOST_HALF_PX`. Our choice. */
export const SIGN_ROW_PX = 11;
const MOST_HALF_PX = 5.5;
const LOW_HALF_PX = 5;

export interface MarkedRow {
  readonly index: number;
  readonly centreY: number;
  readonly balance: BalanceMark | undefined;
}

/** Steps one after another with the same mark. */
export interface MarkRun {
  readonly mark: BalanceMark;
  readonly fromY: number;
  readonly toY: number;
}

/** Runs of rows that carry the same mark, from their upper to their lower edge, px. */
export function markRuns(rows: readonly MarkedRow[], rowPx: number): readonly MarkRun[] {
  const out: { mark: BalanceMark; fromY: number; toY: number; last: number }[] = [];
  for (const { index, centreY, balance } of rows) {
    if (balance === undefined) continue;
    const run = out.at(-1);
    if (run !== undefined && run.mark === balance && run.last === index - 1) Object.assign(run, { toY: centreY + rowPx / 2, last: index });
    else out.push({ mark: balance, fromY: centreY - rowPx / 2, toY: centreY + rowPx / 2, last: index });
  }
  return out.map(({ mark, fromY, toY }) => ({ mark, fromY, toY }));
}

export interface MarkPath {
  readonly name: string;
  readonly d: string;
  readonly fill: null;
  /** What is said when one points at it. */
  readonly title: string;
}

/** One path for the signs of each mark, after the lines along runs. @param x middle of the signs, px */
export function balanceMarkPaths(rows: readonly MarkedRow[], rowPx: number, x: number): readonly MarkPath[] {
  const tall = rowPx >= SIGN_ROW_PX;
  const half = tall ? Math.min(MOST_HALF_PX, rowPx / 2 - 1) : LOW_HALF_PX;
  const runs = tall ? [] : markRuns(rows, rowPx);
  const places = tall
    ? rows.flatMap(({ centreY, balance }) => (balance === undefined ? [] : [{ mark: balance, y: centreY }]))
    : signPlaces(runs, 2 * half + 2);
  return [
    ...BALANCE_MARKS.map((mark): MarkPath => ({
      name: 'balance-run', d: runs.filter((run) => run.mark === mark).map(({ fromY, toY }) => `M${x},${fromY.toFixed(1)}V${toY.toFixed(1)}`).join(''), fill: null, title: BALANCE_MARK_WORDS[mark],
    })),
    ...BALANCE_MARKS.map((mark): MarkPath => ({
      name: isFull(mark) ? 'balance-full' : 'balance-outline',
      d: places.filter((place) => place.mark === mark).map(({ y }) => verdictPath(mark, x, y, half)).join(''), fill: null, title: BALANCE_MARK_WORDS[mark],
    })),
  ];
}

/** A sign in the middle of each run; where runs are so short that signs would lie on each other, the graver one stays. */
function signPlaces(runs: readonly MarkRun[], apartPx: number): readonly { readonly mark: BalanceMark; readonly y: number }[] {
  const kept: { mark: BalanceMark; y: number }[] = [];
  for (const { mark, fromY, toY } of runs) {
    const y = (fromY + toY) / 2;
    const last = kept.at(-1);
    if (last === undefined || y - last.y >= apartPx) kept.push({ mark, y });
    else if (isFull(mark) && !isFull(last.mark)) kept[kept.length - 1] = { mark, y };
  }
  return kept;
}
