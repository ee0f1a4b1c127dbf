/** The axis above a column: round figures in degrees that do not touch, and the marks that the grid lines go on from. */
import { select, ticks } from 'd3';
import { figure } from './figures.ts';
import { put } from './sparing.ts';

/** Free space left and right of the scale, so that a dot at its end is not cut. */
export const COLUMN_PAD_PX = 7;

export interface AxisTick {
  readonly x: number;
  readonly label: string;
  /** Which end of the figure stands at `x`: near an edge it is drawn in, so that it is not cut. */
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Width of a figure at the size of the axes, px: half of 13, rounded up; by eye. */
const FIGURE_PX = 6.6;
/** So near to an edge a figure is drawn in. */
const EDGE_PX = 14;

/**
 * Ticks of a degree axis that can be read: round values whose figures do not touch.
 *
 * @param place x of a value, px
 */
export function degreeTicks(domain: readonly [number, number], widthPx: number, place: (deg: number) => number): AxisTick[] {
  const wanted = Math.max(2, Math.floor(widthPx / 34));
  // One figure alone is no scale: the step is made finer until there are two.
  let values: number[] = [];
  for (let finer = 0; values.length < 2 && finer < 6; finer += 1) values = ticks(domain[0], domain[1], wanted + finer);
  const whole = values.every((v) => Number.isInteger(v));
  const kept: AxisTick[] = [];
  for (const value of values) {
    const x = place(value);
    const anchor = x < EDGE_PX ? 'start' : x > widthPx - EDGE_PX ? 'end' : 'middle';
    const tick: AxisTick = { x, label: figure(value, whole ? 0 : 1), anchor };
    const before = kept.at(-1);
    // Where two figures would run into each other the later one goes.
    if (before === undefined || leftEdge(tick) - leftEdge(before) >= before.label.length * FIGURE_PX + FIGURE_PX) kept.push(tick);
  }
  return kept;
}

function leftEdge({ x, label, anchor }: AxisTick): number {
  return x - label.length * FIGURE_PX * (anchor === 'start' ? 0 : anchor === 'middle' ? 0.5 : 1);
}

/** Draws the ticks and their figures into the head above a column; `heightPx` is the head svg's height. */
export function drawDegreeAxis(svgElement: SVGSVGElement, axisTicks: readonly AxisTick[], heightPx: number): void {
  const svg = select(svgElement);
  put(svg.selectAll<SVGLineElement, AxisTick>('line').data(axisTicks).join('line'), { class: 'tick-line', x1: (d) => d.x, x2: (d) => d.x, y1: heightPx - 4, y2: heightPx });
  put(svg.selectAll<SVGTextElement, AxisTick>('text').data(axisTicks).join('text'), { class: 'tick-text', y: heightPx - 7, x: (d) => d.x, 'text-anchor': (d) => d.anchor })
    .text((d) => d.label);
}
