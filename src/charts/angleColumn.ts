/**
 * The curve of one joint's angle beside the rows it belongs to: degrees across, time down.
 *
 * `angleColumn` works out what is to be seen (pure, tested); `drawAngleColumn` puts it into an SVG. A curve is whole only
 * where both of its ends were measured: it is dashed over a hatched band where an end is unsure, and it stops at a gap.
 */
import { pathRound, scaleLinear, select } from 'd3';
import type { Certainty } from './certainty.ts';
import { type AxisTick, COLUMN_PAD_PX, degreeTicks } from './degreeAxis.ts';
import { ensureHatch } from './hatch.ts';
import type { RowScale, RowWindow } from './rowScale.ts';
import { put, putLast } from './sparing.ts';

export interface Band {
  readonly y: number;
  readonly height: number;
}

export interface StepDot {
  readonly index: number;
  readonly x: number;
  readonly y: number;
  readonly certainty: 'measured' | 'unsure';
}

export interface AngleColumn {
  readonly widthPx: number;
  readonly ticks: readonly AxisTick[];
  /** Where 0° lies, if it lies in the column. */
  readonly zeroX: number | undefined;
  /** SVG path data, empty where there is nothing of the kind. */
  readonly solidPath: string;
  readonly dashedPath: string;
  /** Outline of the band within which about two in three true angles lie: where the value is sure, and where it is not. */
  readonly bandPath: string;
  readonly unsureBandPath: string;
  readonly dots: readonly StepDot[];
  readonly dotRadiusPx: number;
  readonly unsure: readonly Band[];
  readonly missing: readonly Band[];
}

/** What a column is drawn from: one number and its certainty for every row, degrees. */
export interface RowValues {
  readonly value: (index: number) => number;
  readonly certainty: (index: number) => Certainty;
}

/**
 * The curve that is drawn through the dots: `length` points, each at a height counted in rows (the middle of row s is s),
 * rising. It may hold more than the steps do: what the performer did between two steps is part of the picture.
 */
export interface RowCurve {
  readonly length: number;
  readonly row: (point: number) => number;
  readonly value: (point: number) => number;
  readonly certainty: (point: number) => Certainty;
  /** One sigma of the value, degrees; NaN where it is not known, absent where there is no band to draw. */
  readonly errorDeg?: (point: number) => number;
}

/** The plainest curve: from step to step. */
export function curveOfSteps(count: number, values: RowValues): RowCurve {
  return { length: count, row: (point) => point, value: values.value, certainty: values.certainty };
}

/** Below this row height dots would touch; the curve alone is drawn. */
const DOTS_FROM_ROW_PX = 6;
/** A joint that hardly moves keeps at least this span, or its jitter would fill the column. */
const LEAST_SPAN_DEG = 10;

/** Lowest and highest known value of a curve, widened to {@link LEAST_SPAN_DEG}; 0..10 where nothing is known. */
export function degreeDomain(curve: RowCurve): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < curve.length; i += 1) {
    if (curve.certainty(i) === 'missing') continue;
    const value = curve.value(i);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low > high) return [0, LEAST_SPAN_DEG];
  const lack = Math.max(0, LEAST_SPAN_DEG - (high - low)) / 2;
  return [low - lack, high + lack];
}

/** Runs of rows of one certainty as bands, px from the top of row 0. */
export function bandsOf(rows: RowScale, window: RowWindow, values: RowValues, wanted: Certainty): Band[] {
  const bands: Band[] = [];
  let start = -1;
  for (let i = window.first; i <= window.last + 1; i += 1) {
    const inside = i <= window.last && values.certainty(i) === wanted;
    if (inside && start < 0) start = i;
    if (!inside && start >= 0) {
      bands.push({ y: rows.top(start), height: (i - start) * rows.rowPx });
      start = -1;
    }
  }
  return bands;
}

/**
 * @param domain degrees at the two ends of the column, see {@link degreeDomain}
 * @param window rows to draw; the curve runs past them by a point on either side, so that it does not end at the edge
 * @param values what the dots show, one for each row
 */
export function angleColumn(
  rows: RowScale,
  window: RowWindow,
  widthPx: number,
  domain: readonly [number, number],
  values: RowValues,
  curve: RowCurve = curveOfSteps(rows.count, values),
): AngleColumn {
  const x = scaleLinear([domain[0], domain[1]], [COLUMN_PAD_PX, widthPx - COLUMN_PAD_PX]);
  // A band wider than the column ends at its edge.
  const held = (deg: number): number => Math.max(0, Math.min(widthPx, x(deg)));
  const dots: StepDot[] = [];
  for (let index = window.first; index <= window.last; index += 1) {
    const certainty = values.certainty(index);
    if (certainty !== 'missing') dots.push({ index, x: x(values.value(index)), y: rows.centre(index), certainty });
  }
  return {
    widthPx,
    ticks: degreeTicks(domain, widthPx, x),
    zeroX: domain[0] <= 0 && domain[1] >= 0 ? x(0) : undefined,
    ...curvePaths(rows, window, x, curve),
    ...bandPaths(rows, window, held, curve),
    dots: rows.rowPx >= DOTS_FROM_ROW_PX ? dots : [],
    dotRadiusPx: Math.min(3.5, rows.rowPx / 3.2),
    unsure: bandsOf(rows, window, values, 'unsure'),
    missing: bandsOf(rows, window, values, 'missing'),
  };
}

/** First point of a curve that stands at a row or below it. */
function firstFrom(curve: RowCurve, row: number): number {
  let low = 0;
  let high = curve.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (curve.row(middle) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}

function curvePaths(
  rows: RowScale,
  window: RowWindow,
  x: (deg: number) => number,
  curve: RowCurve,
): { readonly solidPath: string; readonly dashedPath: string } {
  const solid = pathRound(2);
  const dashed = pathRound(2);
  // Where each pen stands, so that a run of segments becomes one line: dashes then go on across its points.
  let [solidAt, dashedAt] = [-1, -1];
  for (let i = Math.max(1, firstFrom(curve, window.first - 1)); i < curve.length && curve.row(i - 1) <= window.last + 1; i += 1) {
    const before = curve.certainty(i - 1);
    const here = curve.certainty(i);
    if (before === 'missing' || here === 'missing') continue;
    const whole = before === 'measured' && here === 'measured';
    const path = whole ? solid : dashed;
    if ((whole ? solidAt : dashedAt) !== i - 1) path.moveTo(x(curve.value(i - 1)), rows.centre(curve.row(i - 1)));
    path.lineTo(x(curve.value(i)), rows.centre(curve.row(i)));
    if (whole) solidAt = i;
    else dashedAt = i;
  }
  return { solidPath: solid.toString(), dashedPath: dashed.toString() };
}

/**
 * The error on both sides of the curve, as closed outlines: one for each run of points of the same certainty. A run goes on
 * to the first point of the next, so that no slit is left between them.
 */
function bandPaths(
  rows: RowScale,
  window: RowWindow,
  x: (deg: number) => number,
  curve: RowCurve,
): { readonly bandPath: string; readonly unsureBandPath: string } {
  const sure = pathRound(1);
  const unsure = pathRound(1);
  const { errorDeg } = curve;
  if (errorDeg === undefined) return { bandPath: '', unsureBandPath: '' };
  const known = (i: number): boolean => curve.certainty(i) !== 'missing' && Number.isFinite(errorDeg(i));
  let i = firstFrom(curve, window.first - 1);
  while (i < curve.length && curve.row(i) <= window.last + 1) {
    if (!known(i)) {
      i += 1;
      continue;
    }
    const certainty = curve.certainty(i);
    let end = i;
    while (end + 1 < curve.length && known(end + 1) && curve.certainty(end) === certainty && curve.row(end) <= window.last + 1) end += 1;
    if (end > i) {
      const path = certainty === 'measured' ? sure : unsure;
      path.moveTo(x(curve.value(i) - errorDeg(i)), rows.centre(curve.row(i)));
      for (let p = i + 1; p <= end; p += 1) path.lineTo(x(curve.value(p) - errorDeg(p)), rows.centre(curve.row(p)));
      for (let p = end; p >= i; p -= 1) path.lineTo(x(curve.value(p) + errorDeg(p)), rows.centre(curve.row(p)));
      path.closePath();
    }
    i = Math.max(end, i + 1);
  }
  return { bandPath: sure.toString(), unsureBandPath: unsure.toString() };
}

function circles(dots: readonly StepDot[], radius: number): string {
  const path = pathRound(2);
  for (const dot of dots) {
    path.moveTo(dot.x + radius, dot.y);
    path.arc(dot.x, dot.y, radius, 0, 2 * Math.PI);
  }
  return path.toString();
}

/**
 * Draws a column into an SVG that is as wide as the column and as high as all rows; what was drawn before is replaced.
 *
 * @param id unique in the page, for the hatch
 */
export function drawAngleColumn(svgElement: SVGSVGElement, column: AngleColumn, id: string): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  put(svg.selectAll<SVGLineElement, AxisTick>('line.grid-line').data(column.ticks).join('line'), { class: 'grid-line', x1: (d) => d.x, x2: (d) => d.x, y1: 0, y2: '100%' });
  put(
    svg.selectAll<SVGRectElement, Band>('rect.unsure-band').data(column.unsure).join('rect'),
    { class: 'unsure-band', fill: hatch, width: column.widthPx, y: (d) => d.y, height: (d) => d.height },
  );
  put(
    svg.selectAll<SVGTextElement, Band>('text.gap-word').data(column.missing.filter((band) => band.height >= 16)).join('text'),
    { class: 'gap-word', x: column.widthPx / 2, y: (d) => d.y + d.height / 2 },
  ).text('gap');
  const paths: readonly (readonly [string, string])[] = [
    ['error-band', column.bandPath],
    ['error-band error-band-unsure', column.unsureBandPath],
    ['curve', column.solidPath],
    ['curve curve-unsure', column.dashedPath],
    ['dot', circles(column.dots.filter((d) => d.certainty === 'measured'), column.dotRadiusPx)],
    ['dot dot-unsure', circles(column.dots.filter((d) => d.certainty === 'unsure'), column.dotRadiusPx)],
  ];
  putLast(put(
    svg.selectAll<SVGPathElement, (typeof paths)[number]>('path.drawn').data(paths).join('path'),
    { class: (d) => `drawn ${d[0]}`, d: (d) => d[1] || null },
  ));
}
