/**
 * Rows so low that what stands on them touches: neighbours are drawn as one outline instead of box by box. It looks the same but for
 * the seams, and the browser has a fraction of the corners to draw.
 */

/** Up to this row height bars fill their rows and touch. */
export const TOUCHING_ROW_PX = 4;

export interface RowSpan {
  /** Upper edge, px. */
  readonly y: number;
  readonly height: number;
}

/** Rows one below the other, as spans from the upper edge of the first to the lower edge of the last. @param ys upper edges, rising */
export function rowSpans(ys: readonly number[], rowPx: number): readonly RowSpan[] {
  const out: { y: number; height: number }[] = [];
  for (const y of ys) {
    const last = out.at(-1);
    if (last !== undefined && Math.abs(last.y + last.height - y) < 1e-6) last.height += rowPx;
    else out.push({ y, height: rowPx });
  }
  return out;
}

export interface RowReach {
  readonly y: number;
  /** How far the bar of this row reaches, px from the left edge. */
  readonly toX: number;
}

/** Bars of touching rows from a common line, as one closed outline for each run of rows; SVG path data. */
export function barProfile(bars: readonly RowReach[], fromX: number, rowPx: number): string {
  let path = '';
  let bottom = Number.NaN;
  for (const { y, toX } of bars) {
    const goesOn = Math.abs(bottom - y) < 1e-6;
    if (!goesOn) path += `${path === '' ? '' : `H${fromX.toFixed(1)}z`}M${fromX.toFixed(1)},${y}`;
    bottom = y + rowPx;
    path += `H${toX.toFixed(1)}V${bottom}`;
  }
  return path === '' ? '' : `${path}H${fromX.toFixed(1)}z`;
}
