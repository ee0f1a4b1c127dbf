/**
 * The one map between steps and pixels. The ladder, every chart column and the sheet share it, so that what belongs to a
 * step stands on that step's row at any zoom. Immutable; rows run downward, row 0 is the first step.
 */

/** Zoom levels in pixels a row, smallest to largest; the smallest lets a minute be seen at once, the largest can be touched. */
export const ROW_HEIGHTS_PX = [2, 3, 4, 6, 8, 12, 16, 20, 24, 28, 32, 38, 44] as const;
export const MIN_ROW_PX = ROW_HEIGHTS_PX[0];
export const MAX_ROW_PX = 44;

/** Rows `first..last` inclusive, indices from 0; `last < first` where there are none. */
export interface RowWindow {
  readonly first: number;
  readonly last: number;
}

export interface RowScale {
  readonly rowPx: number;
  readonly count: number;
  /** Height of all rows, pixels. */
  readonly heightPx: number;
  /** Top edge of a row. */
  top(index: number): number;
  /** Middle of a row: where dots stand and curves pass. */
  centre(index: number): number;
  /** Row under a height in pixels, held inside 0..count-1; 0 where there are no rows. */
  indexAt(yPx: number): number;
}

/**
 * @param count number of steps, ≥ 0
 * @param rowPx height of a row in pixels, > 0
 */
export function rowScale(count: number, rowPx: number): RowScale {
  return {
    rowPx,
    count,
    heightPx: count * rowPx,
    top: (index) => index * rowPx,
    centre: (index) => (index + 0.5) * rowPx,
    indexAt: (yPx) => Math.max(0, Math.min(count - 1, Math.floor(yPx / rowPx))),
  };
}

/**
 * Rows to have drawn for a scroll position: the visible ones and half a view more on either side, rounded outward to blocks
 * so that small scrolls change nothing.
 *
 * @param scrollPx how far row 0 lies above the top of the view
 * @param viewPx height of the view
 * @param blockRows rows in a block, ≥ 1
 */
export function windowOfRows(scale: RowScale, scrollPx: number, viewPx: number, blockRows: number): RowWindow {
  if (scale.count === 0) return { first: 0, last: -1 };
  const first = Math.floor((scrollPx - viewPx / 2) / scale.rowPx / blockRows) * blockRows;
  const last = Math.ceil((scrollPx + 1.5 * viewPx) / scale.rowPx / blockRows) * blockRows - 1;
  const end = scale.count - 1;
  return { first: Math.max(0, Math.min(first, end)), last: Math.max(0, Math.min(last, end)) };
}

/**
 * Of how many rows one can carry text: 1, 2, 5, 10, 20, 50 … so that labels stand at least `minPx` apart.
 */
export function labelEvery(rowPx: number, minPx: number): number {
  for (let power = 1; ; power *= 10) {
    for (const k of [1, 2, 5]) if (k * power * rowPx >= minPx) return k * power;
  }
}

/** Step 1 is named only where the next name stands at least so far below it, px. */
const FIRST_ROOM_PX = 24;

/** Whether a row (index from 0) carries text at that spacing: every `every`-th step number, and step 1 where there is room. */
export function isLabelled(index: number, every: number, rowPx: number): boolean {
  if (every === 1 || (index + 1) % every === 0) return true;
  return index === 0 && every * rowPx >= FIRST_ROOM_PX;
}

/** The next zoom level above or below a height that need not itself be a level. */
export function nextRowPx(rowPx: number, direction: 1 | -1): number {
  if (direction > 0) return ROW_HEIGHTS_PX.find((h) => h > rowPx) ?? MAX_ROW_PX;
  return [...ROW_HEIGHTS_PX].reverse().find((h) => h < rowPx) ?? MIN_ROW_PX;
}

/** How far to scroll so that a row is in view with `marginPx` to spare; the present scroll if it already is. */
export function scrollToShow(scale: RowScale, index: number, scrollPx: number, viewPx: number, marginPx: number): number {
  const margin = Math.min(marginPx, Math.max(0, (viewPx - scale.rowPx) / 2));
  const top = scale.top(index) - margin;
  const bottom = scale.top(index) + scale.rowPx + margin;
  if (top < scrollPx) return Math.max(0, top);
  if (bottom > scrollPx + viewPx) return bottom - viewPx;
  return scrollPx;
}

/**
 * Where to scroll to when rows change their height: a row keeps its place in the view. That row is the playhead's while it
 * is in sight, else the uppermost one.
 *
 * @param formerPx row height before, `rowPx` the height now
 * @param index row of the playhead
 * @param scrollPx scroll before, @param viewPx height of the view
 */
export function scrollAfterZoom(formerPx: number, rowPx: number, index: number, scrollPx: number, viewPx: number): number {
  const at = index * formerPx - scrollPx;
  const anchor = at >= 0 && at <= viewPx ? index : Math.floor(scrollPx / formerPx);
  return Math.max(0, anchor * rowPx - (anchor * formerPx - scrollPx));
}

/** Within so much of an edge of the view rows scroll under something that is dragged, px; at most so fast, px a second. */
const EDGE_PX = 36;
const MOST_PX_PER_S = 600;

/**
 * How fast rows scroll under a drag: not at all but near an edge, the faster the nearer to it or the farther beyond.
 *
 * @param yPx height of the pointer; `topPx`, `bottomPx` edges of the rows in sight, in the same measure
 * @returns px a second, positive toward later rows
 */
export function edgeSpeed(yPx: number, topPx: number, bottomPx: number): number {
  const edgePx = Math.min(EDGE_PX, Math.max(0, bottomPx - topPx) / 4);
  if (edgePx === 0) return 0;
  const over = yPx < topPx + edgePx ? yPx - topPx - edgePx : yPx > bottomPx - edgePx ? yPx - bottomPx + edgePx : 0;
  return MOST_PX_PER_S * Math.max(-1, Math.min(1, over / (2 * edgePx)));
}
