/**
 * A curve that is set by hand, beside the rows it belongs to: degrees across, time down, with a mark on every key.
 *
 * `handCurve` works out what is to be seen (pure, tested); `drawHandCurve` puts it into an SVG. Keys are diamonds, the picked
 * one is full and larger; what lies outside of the joint's limits is hatched.
 */
import { scaleLinear, select } from 'd3';
import { COLUMN_PAD_PX } from './degreeAxis.ts';
import { ensureHatch } from './hatch.ts';
import type { RowScale, RowWindow } from './rowScale.ts';

export interface CurveKeyMark {
  readonly key: number;
  readonly x: number;
  readonly y: number;
  readonly picked: boolean;
}

export interface HandCurve {
  readonly path: string;
  readonly keys: readonly CurveKeyMark[];
  readonly keyRadiusPx: number;
  readonly zeroX: number | undefined;
  /** What the joint cannot reach, px across. */
  readonly outside: readonly { readonly x: number; readonly width: number }[];
}

export interface HandCurveInput {
  /** Row (from 0, may lie between rows) and degrees of each key. */
  readonly keys: readonly { readonly row: number; readonly deg: number }[];
  /** Degrees at rows, which may lie between steps; `null` for a curve without keys, which is none. */
  readonly at: ((rows: readonly number[]) => ArrayLike<number>) | null;
  readonly limitsDeg: { readonly min: number; readonly max: number } | null;
  /** Index of the key that is picked, or −1. */
  readonly picked: number;
}

/** Least width of the domain, so that a curve without keys has a scale to be drawn on, degrees. */
const LEAST_SPAN_DEG = 20;

/** What the column shows: keys, limits if they are near, and zero, with a little room. */
export function handDomain(input: Pick<HandCurveInput, 'keys' | 'limitsDeg'>): readonly [number, number] {
  const known = [0, ...input.keys.map((k) => k.deg)];
  if (input.limitsDeg !== null) for (const v of [input.limitsDeg.min, input.limitsDeg.max]) if (Math.abs(v) <= 180) known.push(v);
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const room = Math.max(LEAST_SPAN_DEG - (high - low), (high - low) * 0.12) / 2;
  return [low - room, high + room];
}

/** Degrees across a column, px, and back. */
export function degreeScale(domain: readonly [number, number], widthPx: number): { readonly x: (deg: number) => number; readonly deg: (x: number) => number } {
  const scale = scaleLinear([domain[0], domain[1]], [COLUMN_PAD_PX, widthPx - COLUMN_PAD_PX]);
  return { x: (deg) => scale(deg), deg: (x) => scale.invert(x) };
}

/** What is to be seen of rows `window`. */
export function handCurve(rows: RowScale, window: RowWindow, widthPx: number, domain: readonly [number, number], input: HandCurveInput): HandCurve {
  const { x } = degreeScale(domain, widthPx);
  const y = (row: number): number => (row + 0.5) * rows.rowPx;
  const sampled: number[] = [];
  // At least two points to a row, or the bend of an ease would be cut into straight pieces.
  const per = Math.max(1, Math.min(8, Math.round(rows.rowPx / 3)));
  for (let i = window.first * per; i <= window.last * per; i += 1) sampled.push(i / per);
  const values = input.at?.(sampled) ?? [];
  const points = Array.from(values, (deg, i) => `${x(deg).toFixed(1)},${y(sampled[i]!).toFixed(1)}`);
  const outside = input.limitsDeg === null ? [] : [
    { x: 0, width: Math.max(0, x(input.limitsDeg.min)) },
    { x: Math.min(widthPx, x(input.limitsDeg.max)), width: Math.max(0, widthPx - x(input.limitsDeg.max)) },
  ].filter((band) => band.width > 0.5);
  return {
    path: points.length === 0 ? '' : `M${points.join('L')}`,
    keys: input.keys.flatMap((k, key) => (k.row < window.first - 1 || k.row > window.last + 1 ? [] : [{ key, x: x(k.deg), y: y(k.row), picked: key === input.picked }])),
    keyRadiusPx: Math.max(4, Math.min(7, rows.rowPx / 2.6)),
    zeroX: domain[0] <= 0 && domain[1] >= 0 ? x(0) : undefined,
    outside,
  };
}

/** The key whose mark is under a point, or −1. */
export function keyAt(curve: HandCurve, x: number, y: number, reachPx: number): number {
  let best = -1;
  let least = reachPx;
  for (const mark of curve.keys) {
    const far = Math.hypot(mark.x - x, mark.y - y);
    if (far <= least) {
      least = far;
      best = mark.key;
    }
  }
  return best;
}

/** Draws a column into an SVG as wide as it and as high as all rows; `id` is unique in the page, for the hatch. */
export function drawHandCurve(svgElement: SVGSVGElement, curve: HandCurve, rows: RowScale, id: string): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  svg.selectAll('rect.outside').data(curve.outside).join('rect').attr('class', 'outside').attr('fill', hatch)
    .attr('x', (b) => b.x).attr('width', (b) => b.width).attr('y', 0).attr('height', rows.heightPx);
  svg.selectAll('line.zero-line').data(curve.zeroX === undefined ? [] : [curve.zeroX]).join('line').attr('class', 'zero-line')
    .attr('x1', (v) => v).attr('x2', (v) => v).attr('y1', 0).attr('y2', rows.heightPx);
  svg.selectAll('path.curve').data([curve.path]).join('path').attr('class', 'curve').attr('d', (d) => d || null);
  svg.selectAll('path.key-mark').data(curve.keys).join('path').attr('class', (k) => `key-mark${k.picked ? ' key-picked' : ''}`)
    .attr('d', (k) => {
      const r = curve.keyRadiusPx + (k.picked ? 2 : 0);
      return `M${k.x},${k.y - r}l${r},${r}l${-r},${r}l${-r},${-r}z`;
    });
}
