/**
 * The margin of balance beside the rows: millimetres to the edge across, time down; inside to the right of the zero line. Standing
 * is a whole line, motion a dashed one, the error of standing a hatched band, one-leg spans bars at the left with their worst step.
 *
 * `marginPaths` works out what is to be seen (pure, tested); `drawMarginColumn` puts it into an SVG.
 */
import { line, scaleLinear, select, type ScaleLinear } from 'd3';
import type { Balance } from '../../balance/balance.ts';
import { figure, jointWords } from '../figures.ts';
import { ensureHatch } from '../hatch.ts';
import type { RowScale, RowWindow } from '../rowScale.ts';
import { isFull, verdictOf, verdictPath } from './verdictSigns.ts';

/** Room at the left for one-leg bars and signs, at the right for breath, px. */
export const MARGIN_PAD = { left: 64, right: 16 } as const;
/** At least so much is shown on both sides of zero, mm. */
const LEAST_MM = 5;
const MOST_QUANTILE = 0.98;
/** Height from which a while on one leg has its words, px. */
const NAME_PX = 90;

/** Millimetres across: far outliers of strides do not flatten the rest. */
export function marginScale({ standMm, moveMm }: Balance, wantedMm: number, widthPx: number): ScaleLinear<number, number> {
  const known = [...standMm, ...moveMm].filter((mm) => Number.isFinite(mm)).sort((a, b) => a - b);
  const low = Math.min(-LEAST_MM, known[Math.floor((1 - MOST_QUANTILE) * known.length)] ?? 0);
  const high = Math.max(LEAST_MM, wantedMm, known[Math.min(known.length - 1, Math.floor(MOST_QUANTILE * known.length))] ?? 0);
  return scaleLinear([low, high], [MARGIN_PAD.left, widthPx - MARGIN_PAD.right]).nice(6).clamp(true);
}

export interface MarginColumnInput {
  readonly balance: Balance;
  readonly wantedMm: number;
  readonly widthPx: number;
  /** Margins of standing as a correction would make them; `null`: none is looked at. */
  readonly afterMm?: ArrayLike<number> | null;
}

export interface MarginPath {
  readonly name: string;
  readonly d: string;
  readonly hatched: boolean;
}

/** Paths of the rows of a window, in the order in which they are drawn. */
export function marginPaths(rows: RowScale, window: RowWindow, { balance, wantedMm, widthPx, afterMm }: MarginColumnInput): readonly MarginPath[] {
  const x = marginScale(balance, wantedMm, widthPx);
  const seen = Array.from({ length: Math.max(0, window.last - window.first + 1) }, (_, k) => window.first + k);
  const top = rows.top(window.first);
  const bottom = window.last < window.first ? 0 : rows.top(window.last) + rows.rowPx;
  const through = (values: ArrayLike<number>): string =>
    line<number>((s) => x(values[s]!), (s) => rows.centre(s)).defined((s) => Number.isFinite(values[s]!))(seen) ?? '';
  const band = runsOf(seen, (s) => Number.isFinite(balance.standMm[s]!) && Number.isFinite(balance.marginSigmaMm[s]!)).map((run) => {
    const side = (sign: 1 | -1, some: readonly number[]): string => some.map((s) => `${x(balance.standMm[s]! + sign * balance.marginSigmaMm[s]!).toFixed(1)},${rows.centre(s)}`).join('L');
    return run.length < 2 ? '' : `M${side(1, run)}L${side(-1, [...run].reverse())}z`;
  }).join('');
  const unknown = runsOf(seen, (s) => !Number.isFinite(balance.standMm[s]!)).map((run) => `M${MARGIN_PAD.left},${rows.top(run[0]!)}H${widthPx - MARGIN_PAD.right}V${rows.top(run[run.length - 1]!) + rows.rowPx}H${MARGIN_PAD.left}z`).join('');
  const spans = balance.oneLeg.filter(({ fromStep, toStep }) => toStep >= window.first && fromStep <= window.last);
  const half = Math.min(6, Math.max(1.5, rows.rowPx / 2 - 1));
  const signs = rows.rowPx >= 8 ? seen : [];
  const sign = (full: boolean): string => signs.filter((s) => isFull(verdictOf(balance.standVerdict[s]!)) === full).map((s) => verdictPath(verdictOf(balance.standVerdict[s]!), 48, rows.centre(s), half)).join('');
  const ticks = x.ticks(6);
  return [
    { name: 'margin-outside', d: `M${MARGIN_PAD.left},${top}H${x(0)}V${bottom}H${MARGIN_PAD.left}z`, hatched: false },
    { name: 'margin-unknown', d: unknown, hatched: true },
    { name: 'rung', d: ticks.map((t) => `M${x(t)},${top}V${bottom}`).join(''), hatched: false },
    { name: 'margin-band', d: band, hatched: true },
    { name: 'margin-zero', d: `M${x(0)},${top}V${bottom}`, hatched: false },
    { name: 'margin-wanted', d: `M${x(wantedMm)},${top}V${bottom}`, hatched: false },
    { name: 'margin-move', d: through(balance.moveMm), hatched: false },
    { name: 'margin-stand', d: through(balance.standMm), hatched: false },
    { name: 'margin-after', d: afterMm === null || afterMm === undefined ? '' : through(afterMm), hatched: false },
    { name: 'one-leg', d: spans.map(({ fromStep, toStep }) => `M22,${rows.top(fromStep) + 1}h8v${(toStep - fromStep + 1) * rows.rowPx - 2}h-8z`).join(''), hatched: false },
    { name: 'one-leg-worst', d: spans.filter(({ worstMm }) => Number.isFinite(worstMm)).map(({ worstStep, worstMm }) => `M${x(worstMm)},${rows.centre(worstStep)}m-6,0a6,6 0 1,0 12,0a6,6 0 1,0 -12,0`).join(''), hatched: false },
    { name: 'verdict-outline', d: sign(false), hatched: false },
    { name: 'verdict-full', d: sign(true), hatched: false },
  ];
}

/** Words beside the bars of whiles on one leg; none where they have no room. */
export function marginSpanNames(rows: RowScale, window: RowWindow, { oneLeg }: Balance): readonly { readonly key: string; readonly x: number; readonly y: number; readonly text: string }[] {
  return oneLeg.filter(({ fromStep, toStep }) => toStep >= window.first && fromStep <= window.last).flatMap(({ foot, fromStep, toStep }) => {
    const from = Math.max(fromStep, window.first);
    return (toStep - from + 1) * rows.rowPx > NAME_PX ? [{ key: `${foot}${fromStep}`, x: 14, y: rows.top(from) + 6, text: `on the ${jointWords(foot)}` }] : [];
  });
}

export function drawMarginColumn(svgElement: SVGSVGElement, rows: RowScale, window: RowWindow, input: MarginColumnInput, id: string): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  svg.selectAll('path.drawn').data(marginPaths(rows, window, input)).join('path').attr('class', (d) => `drawn ${d.name}`).attr('fill', (d) => (d.hatched ? hatch : null)).attr('d', (d) => d.d || null);
  svg.selectAll<SVGTextElement, { key: string }>('text').data(marginSpanNames(rows, window, input.balance), (d) => d.key).join('text')
    .attr('class', 'one-leg-name').attr('transform', (d) => `translate(${d.x},${d.y}) rotate(90)`).text((d) => d.text);
}

/** Runs of neighbouring steps for which something holds. */
function runsOf(steps: readonly number[], holds: (step: number) => boolean): readonly (readonly number[])[] {
  const out: number[][] = [];
  for (const s of steps) {
    if (!holds(s)) continue;
    const last = out.at(-1);
    if (last !== undefined && last[last.length - 1] === s - 1) last.push(s);
    else out.push([s]);
  }
  return out;
}

/** Ticks of the axis above the column. */
export function marginTicks(balance: Balance, wantedMm: number, widthPx: number): readonly { readonly x: number; readonly words: string }[] {
  const x = marginScale(balance, wantedMm, widthPx);
  return x.ticks(6).map((mm) => ({ x: x(mm), words: figure(mm, 0) }));
}
