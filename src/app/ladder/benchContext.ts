/** What everything on the sheet shares: the rows, which of them to draw, and the element that scrolls. */
import { createContext, useContext } from 'react';
import { type LadderLayout, WIDE_LADDER } from '../../charts/ladder.ts';
import { type RowScale, rowScale, type RowWindow } from '../../charts/rowScale.ts';

export interface BenchRows {
  readonly rows: RowScale;
  readonly window: RowWindow;
  /** How far the sheet is scrolled sideways, px, in coarse steps: columns far from it need not be drawn. */
  readonly leftPx: number;
  readonly layout: LadderLayout;
  /** Size of the part that scrolls, px. */
  readonly viewWidthPx: number;
  readonly viewHeightPx: number;
}

export const BenchContext = createContext<BenchRows>({
  rows: rowScale(0, 24),
  window: { first: 0, last: -1 },
  leftPx: 0,
  layout: WIDE_LADDER,
  viewWidthPx: 0,
  viewHeightPx: 0,
});

export function useBenchRows(): BenchRows {
  return useContext(BenchContext);
}
