/**
 * The turn of one joint at each step as bars from a zero line: to the right what is above zero, to the left what is below,
 * so that the direction is seen without colour. A ball joint's turns have a size only: its zero line is at the left.
 */
import { scaleLinear, select } from 'd3';
import { type Band, bandsOf, type RowValues } from './angleColumn.ts';
import { type AxisTick, COLUMN_PAD_PX, degreeTicks } from './degreeAxis.ts';
import { ensureHatch } from './hatch.ts';
import { barProfile, TOUCHING_ROW_PX } from './lowRows.ts';
import type { RowScale, RowWindow } from './rowScale.ts';
import { put } from './sparing.ts';

export interface IncrementBar {
  readonly index: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly certainty: 'measured' | 'unsure';
}

export interface IncrementColumn {
  readonly widthPx: number;
  readonly ticks: readonly AxisTick[];
  readonly zeroX: number;
  readonly bars: readonly IncrementBar[];
  /** Whether the bars fill their rows. */
  readonly touching: boolean;
  readonly missing: readonly Band[];
}

/** A joint that hardly turns keeps at least this scale, or its jitter would look like a move. */
const LEAST_SPAN_DEG = 2;

/**
 * Symmetric domain for signed turns, 0..largest for turns that only have a size; degrees a step.
 *
 * @param signed whether turns below zero can occur (hinge, swivel)
 */
export function incrementDomain(count: number, values: RowValues, signed: boolean): readonly [number, number] {
  let largest = LEAST_SPAN_DEG;
  for (let i = 0; i < count; i += 1) {
    if (values.certainty(i) !== 'missing') largest = Math.max(largest, Math.abs(values.value(i)));
  }
  return [signed ? -largest : 0, largest];
}

/** What is to be seen of rows `window` in a column of that width. */
export function incrementColumn(
  rows: RowScale,
  window: RowWindow,
  widthPx: number,
  domain: readonly [number, number],
  values: RowValues,
): IncrementColumn {
  const x = scaleLinear([domain[0], domain[1]], [COLUMN_PAD_PX, widthPx - COLUMN_PAD_PX]);
  const bars: IncrementBar[] = [];
  const height = rows.rowPx <= TOUCHING_ROW_PX ? rows.rowPx : Math.min(14, rows.rowPx * 0.6);
  for (let index = window.first; index <= window.last; index += 1) {
    const certainty = values.certainty(index);
    if (certainty === 'missing') continue;
    const from = x(0);
    const to = x(values.value(index));
    bars.push({
      index,
      x: Math.min(from, to),
      y: rows.centre(index) - height / 2,
      width: Math.abs(to - from),
      height,
      certainty,
    });
  }
  return {
    widthPx,
    ticks: degreeTicks(domain, widthPx, x),
    zeroX: x(0),
    bars,
    touching: rows.rowPx <= TOUCHING_ROW_PX,
    missing: bandsOf(rows, window, values, 'missing'),
  };
}

/** Draws a column into an SVG as wide as it and as high as all rows; `id` is unique in the page, for the hatch. */
export function drawIncrementColumn(svgElement: SVGSVGElement, column: IncrementColumn, id: string): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  put(svg.selectAll<SVGLineElement, number>('line.zero-line').data([column.zeroX]).join('line'), { class: 'zero-line', x1: (d) => d, x2: (d) => d, y1: 0, y2: '100%' });
  const rect = (bar: IncrementBar): string =>
    `M${bar.x.toFixed(1)},${bar.y.toFixed(1)}h${bar.width.toFixed(1)}v${bar.height.toFixed(1)}h${(-bar.width).toFixed(1)}z`;
  const pathOf = (wanted: string): string => {
    const seen = column.bars.filter((b) => b.certainty === wanted && b.width >= 0.5);
    if (!column.touching) return seen.map(rect).join('');
    return barProfile(seen.map((b) => ({ y: b.y, toX: b.x < column.zeroX ? b.x : b.x + b.width })), column.zeroX, seen[0]?.height ?? 0);
  };
  const paths = [
    { name: 'bar', d: pathOf('measured'), fill: null },
    // Not `bar` as well: that class has a fill of its own, which would win over the hatch.
    { name: 'bar-unsure', d: pathOf('unsure'), fill: hatch },
  ];
  put(svg.selectAll<SVGPathElement, (typeof paths)[number]>('path').data(paths).join('path'), { class: (d) => d.name, fill: (d) => d.fill, d: (d) => d.d || null });
}
