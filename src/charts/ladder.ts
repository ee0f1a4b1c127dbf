/**
 * The ladder: the steps of the plan as rungs, from top to bottom. Number, exposures, how much moves, gap mark, feet, balance, shot tick.
 *
 * `ladder` works out what is to be seen of a window of rows (pure, tested); `drawLadder` puts it into an SVG.
 */
import { select } from 'd3';
import { exposureSpan } from './figures.ts';
import type { GapCount } from './certainty.ts';
import { ensureHatch } from './hatch.ts';
import { barProfile, type RowSpan, rowSpans, TOUCHING_ROW_PX } from './lowRows.ts';
import { isLabelled, labelEvery, type RowScale, type RowWindow } from './rowScale.ts';
import type { BalanceMark } from './poise/balanceMark.ts';
import { balanceMarkPaths } from './poise/balanceMarkPaths.ts';
import { put } from './sparing.ts';

/** Where the parts of a rung stand, px from the left edge; texts are right-aligned at `numberX` and `exposureX`. */
export interface LadderLayout {
  readonly widthPx: number;
  readonly numberX: number;
  readonly exposureX: number;
  readonly barX: number;
  readonly barWidthPx: number;
  readonly markX: number;
  readonly markWidthPx: number;
  /** Left edge of the two lanes that say which foot stands, and the width of one. */
  readonly feetX: number;
  readonly footPx: number;
  /** Middle of the sign of balance. */
  readonly balanceX: number;
  readonly shotX: number;
}

export const WIDE_LADDER: LadderLayout = {
  widthPx: 288, numberX: 46, exposureX: 112, barX: 124, barWidthPx: 54, markX: 184, markWidthPx: 22, feetX: 222, footPx: 9, balanceX: 251, shotX: 266,
};
export const NARROW_LADDER: LadderLayout = {
  widthPx: 243, numberX: 40, exposureX: 98, barX: 110, barWidthPx: 32, markX: 147, markWidthPx: 16, feetX: 183, footPx: 8, balanceX: 210.5, shotX: 226,
};

export interface LadderRow {
  readonly index: number;
  readonly y: number;
  readonly centreY: number;
  /** Texts where the row carries them. */
  readonly label: string | undefined;
  readonly exposures: string | undefined;
  readonly barPx: number;
  /** For how many exposures the step is held: as many upright bars. */
  readonly holds: number;
  /** `gap`: not known for some joint; `bridged`: drawn over a short gap. The word stands beside the hatching. */
  readonly mark: 'gap' | 'bridged' | undefined;
  readonly markWord: string | undefined;
  readonly shot: boolean;
  readonly stands: Standing;
  readonly byHand: ByHand;
  readonly balance: BalanceMark | undefined;
}

/** Which feet stand; `null` where it is not known. */
export type Standing = { readonly left: boolean; readonly right: boolean } | null;

/** Put right by hand: a joint at this step, something over a span that this step lies in, or nothing. */
export type ByHand = 'here' | 'span' | undefined;

export interface LadderInput {
  /** For how many exposures the step is held. */
  readonly holds: (index: number) => number;
  readonly exposure: (index: number) => number;
  /** Sum of turns and the largest of the take, degrees. */
  readonly turnSum: (index: number) => number;
  readonly largestTurnSum: number;
  readonly gaps: (index: number) => GapCount;
  readonly isShot: (index: number) => boolean;
  readonly stands: (index: number) => Standing;
  readonly byHand: (index: number) => ByHand;
  /** What is to be said of the step's balance; `undefined` where it holds or was not judged. */
  readonly balance: (index: number) => BalanceMark | undefined;
}

/** Row heights from which texts fit on every row, and from which the shot tick is a box that can be hit. */
const TEXT_ROW_PX = 16;
export const TICK_ROW_PX = 16;

/** Row height from which figures are set a size larger. */
export const TALL_ROW_PX = 28;

/** What is to be seen of the rows of a window. */
export function ladder(rows: RowScale, window: RowWindow, layout: LadderLayout, input: LadderInput): LadderRow[] {
  const every = labelEvery(rows.rowPx, TEXT_ROW_PX);
  const out: LadderRow[] = [];
  for (let index = window.first; index <= window.last; index += 1) {
    const labelled = isLabelled(index, every, rows.rowPx);
    const { missing, bridged } = input.gaps(index);
    const mark = missing > 0 ? 'gap' : bridged > 0 ? 'bridged' : undefined;
    const sum = input.turnSum(index);
    out.push({
      index,
      y: rows.top(index),
      centreY: rows.centre(index),
      label: labelled ? String(index + 1) : undefined,
      exposures: labelled ? exposureSpan(input.exposure(index), input.holds(index)) : undefined,
      barPx: input.largestTurnSum > 0 ? (sum / input.largestTurnSum) * layout.barWidthPx : 0,
      holds: input.holds(index),
      mark,
      markWord: mark !== undefined && rows.rowPx >= TEXT_ROW_PX ? (mark === 'gap' ? `G${missing}` : `B${bridged}`) : undefined,
      shot: input.isShot(index),
      stands: input.stands(index),
      byHand: input.byHand(index),
      balance: input.balance(index),
    });
  }
  return out;
}

/** Most bars of a hold that have room between exposures and turns. */
const MOST_HOLD_BARS = 4;

/** Holds as upright bars side by side; on low rows they run together to a profile of the pattern. */
function holdBars(rung: readonly LadderRow[], { exposureX, barX }: LadderLayout, rowPx: number): string {
  const pitch = (barX - exposureX - 4) / MOST_HOLD_BARS;
  const height = Math.min(14, rowPx * 0.62);
  return Array.from({ length: MOST_HOLD_BARS }, (_, k) => {
    const held = rung.filter(({ holds }) => holds > k);
    const spans = rowPx <= TOUCHING_ROW_PX ? rowSpans(held.map(({ y }) => y), rowPx) : held.map(({ centreY }) => ({ y: centreY - height / 2, height }));
    const x = (exposureX + 2.5 + k * pitch + pitch / 2).toFixed(2);
    return spans.map((span) => `M${x},${span.y.toFixed(1)}v${span.height.toFixed(1)}`).join('');
  }).join('');
}

/** Middle of the marks of what was put right by hand, px from the left edge. */
const HAND_X = 8;

/** Draws the rungs into an SVG as wide as the layout and as high as all rows; `id` is unique in the page, for the hatch. */
export function drawLadder(
  svgElement: SVGSVGElement,
  rung: readonly LadderRow[],
  rows: RowScale,
  layout: LadderLayout,
  id: string,
): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  const touching = rows.rowPx <= TOUCHING_ROW_PX;
  const barHeight = Math.min(16, rows.rowPx * 0.62);
  const rightRail = layout.barX + layout.barWidthPx;
  const labelled = rung.filter((r) => r.label !== undefined);
  const box = (r: LadderRow, size: number): string =>
    `M${layout.shotX - size / 2},${r.centreY - size / 2}h${size}v${size}h${-size}z`;
  const tick = (r: LadderRow): string => `M${layout.shotX - 4.5},${r.centreY}l3.2,3.6l6,-7.4`;
  const bars = touching
    ? barProfile(rung.map((r) => ({ y: r.y, toX: layout.barX + r.barPx })), layout.barX, rows.rowPx)
    : rung.map((r) => `M${layout.barX},${(r.centreY - barHeight / 2).toFixed(1)}h${r.barPx.toFixed(1)}v${barHeight}h${(-r.barPx).toFixed(1)}z`).join('');
  const marks = rung
    .filter((r) => r.mark !== undefined)
    .map((r) => {
      const height = Math.min(rows.rowPx, 16);
      const width = r.markWord === undefined ? layout.markWidthPx : 10;
      return `M${layout.markX},${(r.centreY - height / 2).toFixed(1)}h${width}v${height}h${-width}z`;
    });
  const first = rung[0];
  const last = rung[rung.length - 1];
  const top = first?.y ?? 0;
  const bottom = last === undefined ? 0 : last.y + rows.rowPx;
  const rungs = labelled.map((r) => `M${layout.barX},${r.y + rows.rowPx}h${layout.barWidthPx}`).join('');
  const rails = `M${layout.barX},${top}V${bottom}M${rightRail},${top}V${bottom}`;
  const boxes = rows.rowPx >= TICK_ROW_PX;
  // The left foot's lane is whole, the right one's open in the middle, as bones are whole on the left and dashed on the right.
  const leftFoot = ({ y, height }: RowSpan): string => `M${layout.feetX},${y}h${layout.footPx}v${height}h${-layout.footPx}z`;
  const rightFoot = ({ y, height }: RowSpan): string =>
    [0, 2 / 3].map((k) => `M${(layout.feetX + layout.footPx * (1.35 + k)).toFixed(1)},${y}h${(layout.footPx / 3).toFixed(1)}v${height}h${(-layout.footPx / 3).toFixed(1)}z`).join('');
  const standing = (foot: 'left' | 'right'): readonly RowSpan[] => rowSpans(rung.filter((r) => r.stands?.[foot]).map((r) => r.y), rows.rowPx);
  const diamond = (r: LadderRow): string => {
    const half = Math.min(5, Math.max(2, rows.rowPx / 2 - 1));
    return `M${HAND_X - half},${r.centreY}l${half},${-half}l${half},${half}l${-half},${half}z`;
  };
  const paths = [
    { name: 'rung', d: rungs, fill: null },
    { name: 'amount', d: bars, fill: null },
    { name: 'hold', d: holdBars(rung, layout, rows.rowPx), fill: null },
    { name: 'mark', d: marks.join(''), fill: hatch },
    { name: 'rail', d: rails, fill: null },
    { name: 'foot', d: standing('left').map(leftFoot).join(''), fill: null },
    { name: 'foot', d: standing('right').map(rightFoot).join(''), fill: null },
    { name: 'hand-span', d: rung.filter((r) => r.byHand === 'span').map((r) => `M${HAND_X},${r.y}v${rows.rowPx}`).join(''), fill: null },
    { name: 'hand', d: rung.filter((r) => r.byHand === 'here').map(diamond).join(''), fill: null },
    ...balanceMarkPaths(rung, rows.rowPx, layout.balanceX),
    { name: 'shot-box', d: boxes ? rung.map((r) => box(r, 14)).join('') : '', fill: null },
    { name: 'shot-full', d: boxes ? rung.filter((r) => r.shot).map((r) => box(r, 14)).join('') : rung.filter((r) => r.shot).map((r) => `M${layout.shotX - 5},${r.y}h10v${rows.rowPx}h-10z`).join(''), fill: null },
    { name: 'shot-tick', d: boxes ? rung.filter((r) => r.shot).map(tick).join('') : '', fill: null },
  ];
  put(
    svg.selectAll<SVGPathElement, (typeof paths)[number]>('path.drawn').data(paths).join('path'),
    { class: (d) => `drawn ${d.name}`, fill: (d) => d.fill, d: (d) => d.d || null },
  )
    .selectAll('title')
    .data((d) => ('title' in d ? [d.title] : []))
    .join('title')
    .text((title) => title);

  // On low rows the first step's figures would be cut by the top edge.
  const textY = (r: LadderRow): number => Math.max(TEXT_ROW_PX / 2, r.centreY);
  svg.classed('tall-rows', rows.rowPx >= TALL_ROW_PX);
  const texts = [
    ...labelled.map((r) => ({ key: `n${r.index}`, name: 'rung-number', x: layout.numberX, y: textY(r), text: r.label ?? '' })),
    ...labelled.map((r) => ({ key: `e${r.index}`, name: 'rung-exposure', x: layout.exposureX, y: textY(r), text: r.exposures ?? '' })),
    ...rung
      .filter((r) => r.markWord !== undefined)
      .map((r) => ({ key: `m${r.index}`, name: 'rung-mark', x: layout.markX + 13, y: r.centreY, text: r.markWord ?? '' })),
  ];
  put(
    svg.selectAll<SVGTextElement, (typeof texts)[number]>('text').data(texts, (d) => d.key).join('text'),
    { class: (d) => d.name, x: (d) => d.x, y: (d) => d.y },
  ).text((d) => d.text);
}
