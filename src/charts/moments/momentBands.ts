/**
 * Moves and pauses as bands along the rows: a move is full and swells to where it is fastest, a pause is a hatched bar with both its ends
 * closed. Data in, picture out.
 */
import { select } from 'd3';
import { ensureHatch } from '../hatch.ts';
import type { RowScale, RowWindow } from '../rowScale.ts';
import { put } from '../sparing.ts';
import type { MoveOnSteps, PauseOnSteps } from '../../timing/moments/moments.ts';

export interface BandLayout {
  /** Left edge and width of the lane, px. */
  readonly x: number;
  readonly widthPx: number;
}

/** Height of a fractional step, from the top of the first row; a step is its row's middle. */
export function stepY(rows: RowScale, step: number): number {
  return (step + 0.5) * rows.rowPx;
}

/** Outline of a move: from nothing at its start to the whole width at its peak, back to nothing at its end. */
export function moveOutline(rows: RowScale, { startStep, peakStep, endStep }: Pick<MoveOnSteps, 'startStep' | 'peakStep' | 'endStep'>, { x, widthPx }: BandLayout): string {
  const [top, middle, bottom] = [startStep, Math.min(endStep, Math.max(startStep, peakStep)), endStep].map((step) => stepY(rows, step)) as [number, number, number];
  const centre = x + widthPx / 2;
  const half = widthPx / 2;
  // bells on both sides of the peak, as the speed of a move goes
  const side = (sign: 1 | -1): string => `C${centre + sign * half * 0.15},${(top + middle) / 2} ${centre + sign * half},${(top + 2 * middle) / 3} ${centre + sign * half},${middle}`;
  const down = (sign: 1 | -1): string => `C${centre + sign * half},${(2 * middle + bottom) / 3} ${centre + sign * half * 0.15},${(middle + bottom) / 2} ${centre},${bottom}`;
  const up = `C${centre - half * 0.15},${(middle + bottom) / 2} ${centre - half},${(2 * middle + bottom) / 3} ${centre - half},${middle}C${centre - half},${(top + 2 * middle) / 3} ${centre - half * 0.15},${(top + middle) / 2} ${centre},${top}`;
  return `M${centre},${top}${side(1)}${down(1)}${up}z`;
}

/** Outline of a pause: the rows of its steps, whole. */
export function pauseOutline(rows: RowScale, { fromStep, toStep }: Pick<PauseOnSteps, 'fromStep' | 'toStep'>, { x, widthPx }: BandLayout): string {
  const inset = widthPx * 0.3;
  const top = rows.top(fromStep) + 1;
  const height = Math.max(1, (toStep - fromStep + 1) * rows.rowPx - 2);
  return `M${x + inset},${top}h${widthPx - 2 * inset}v${height}h${-(widthPx - 2 * inset)}z`;
}

/** What lies within the window, with some rows to spare. */
export function inWindow<T>(all: readonly T[], from: (one: T) => number, to: (one: T) => number, window: RowWindow): readonly T[] {
  return all.filter((one) => to(one) >= window.first - 1 && from(one) <= window.last + 1);
}

/** Words along a band, read with the head tilted; as often as the eye needs them on a long one. */
export interface BandWord {
  readonly text: string;
  readonly y: number;
  readonly name: 'band-word-move' | 'band-word-pause';
}

/** A band shorter than its word gets none; how far apart words stand on a long one, px. Our choice. */
const WORD_PX = { move: 40, pause: 46 } as const;
const WORD_EVERY_PX = 320;

/** Words of bands from one height to another. */
export function bandWords(kind: keyof typeof WORD_PX, topPx: number, bottomPx: number): readonly BandWord[] {
  const length = bottomPx - topPx;
  if (length < WORD_PX[kind]) return [];
  const count = Math.max(1, Math.round(length / WORD_EVERY_PX));
  return Array.from({ length: count }, (_, k) => ({ text: kind, y: topPx + ((k + 0.5) * length) / count, name: `band-word-${kind}` as const }));
}

/** Middle of a move's one word: before the peak, where the band is widest and its line is not crossed; behind it where the move begins with its peak. */
export function moveWordY(topPx: number, peakPx: number, bottomPx: number): number {
  const half = WORD_PX.move / 2;
  const y = peakPx - 2 * half >= topPx ? peakPx - half : peakPx + half;
  return Math.min(bottomPx - half, Math.max(topPx + half, y));
}

/** Draws one lane into an SVG as high as all rows; `id` is unique in the page, for the hatch. */
export function drawMomentBands(
  svgElement: SVGSVGElement, rows: RowScale, window: RowWindow, layout: BandLayout, moves: readonly MoveOnSteps[], pauses: readonly PauseOnSteps[], id: string,
): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  const seenMoves = inWindow(moves, (m) => m.startStep, (m) => m.endStep, window);
  const seenPauses = inWindow(pauses, (p) => p.fromStep, (p) => p.toStep, window);
  const paths = [
    { name: 'band-pause', d: seenPauses.map((pause) => pauseOutline(rows, pause, layout)).join(''), fill: hatch },
    { name: 'band-move', d: seenMoves.map((move) => moveOutline(rows, move, layout)).join(''), fill: null },
    { name: 'band-peak', d: seenMoves.map(({ peakStep }) => `M${layout.x},${stepY(rows, peakStep)}h${layout.widthPx}`).join(''), fill: null },
  ];
  put(
    svg.selectAll<SVGPathElement, (typeof paths)[number]>('path.drawn').data(paths).join('path'),
    { class: (d) => `drawn ${d.name}`, fill: (d) => d.fill, d: (d) => d.d || null },
  );
  const words = [
    ...seenMoves.flatMap(({ startStep, peakStep, endStep }) => {
      const [top, peak, bottom] = [stepY(rows, startStep), stepY(rows, peakStep), stepY(rows, endStep)];
      const made = bandWords('move', top, bottom);
      return made.length === 1 ? made.map((word) => ({ ...word, y: moveWordY(top, peak, bottom) })) : made;
    }),
    ...seenPauses.flatMap(({ fromStep, toStep }) => bandWords('pause', rows.top(fromStep), rows.top(toStep + 1))),
  ];
  const x = layout.x + layout.widthPx / 2;
  put(
    svg.selectAll<SVGTextElement, BandWord>('text').data(words).join('text'),
    { class: (d) => d.name, transform: (d) => `translate(${x},${d.y.toFixed(1)}) rotate(90)` },
  ).text((d) => d.text);
}
