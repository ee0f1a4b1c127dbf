/**
 * How fast each limb goes, beside the rows: speed across, time down. Left limbs are whole lines, right ones dashed, the trunk dotted;
 * each is named where it is fastest.
 */
import { line, scaleLinear, select, type ScaleLinear } from 'd3';
import type { LimbRates } from '../../timing/moments/limbRates.ts';
import { LIMBS, type Limb } from '../../timing/moments/moments.ts';
import { figure } from '../figures.ts';
import { LIMB_WORDS } from '../moments/limbWords.ts';
import type { RowScale, RowWindow } from '../rowScale.ts';
import { put } from '../sparing.ts';

export type RateUnit = 'deg' | 'mm' | 'heights';
export const RATE_UNIT_WORDS: Readonly<Record<RateUnit, string>> = { deg: '° a step', mm: 'mm a step', heights: 'heights a second' };
const OF_UNIT: Readonly<Record<RateUnit, keyof LimbRates>> = { deg: 'turnDeg', mm: 'endMm', heights: 'heightsPerS' };

export function limbValue(rates: LimbRates, unit: RateUnit, limb: Limb, step: number): number {
  return rates[OF_UNIT[unit]][step * LIMBS.length + LIMBS.indexOf(limb)] ?? Number.NaN;
}

/** Room on both sides, px. */
const PAD = { left: 12, right: 70 } as const;

/** 0 to the fastest step of the shown limbs. */
export function rateScale(rates: LimbRates, unit: RateUnit, limbs: readonly Limb[], steps: number, widthPx: number): ScaleLinear<number, number> {
  let most = 0;
  for (const limb of limbs) for (let s = 0; s < steps; s++) {
    const value = limbValue(rates, unit, limb, s);
    if (value > most) most = value;
  }
  return scaleLinear([0, most > 0 ? most : 1], [PAD.left, widthPx - PAD.right]).nice(5);
}

export interface LimbRatesInput {
  readonly rates: LimbRates;
  readonly unit: RateUnit;
  readonly limbs: readonly Limb[];
  readonly steps: number;
  readonly widthPx: number;
}

export function drawLimbRates(svgElement: SVGSVGElement, rows: RowScale, window: RowWindow, { rates, unit, limbs, steps, widthPx }: LimbRatesInput): void {
  const svg = select(svgElement);
  const x = rateScale(rates, unit, limbs, steps, widthPx);
  const seen = Array.from({ length: Math.max(0, window.last - window.first + 1) }, (_, k) => window.first + k);
  const top = rows.top(window.first);
  const bottom = window.last < window.first ? 0 : rows.top(window.last) + rows.rowPx;
  const paths = [
    { name: 'rung', d: x.ticks(5).map((t) => `M${x(t)},${top}V${bottom}`).join('') },
    ...LIMBS.map((limb) => ({
      name: `rate rate-${limb}`,
      d: !limbs.includes(limb) ? '' : line<number>((s) => x(limbValue(rates, unit, limb, s)), (s) => rows.centre(s)).defined((s) => Number.isFinite(limbValue(rates, unit, limb, s)))(seen) ?? '',
    })),
  ];
  put(svg.selectAll<SVGPathElement, (typeof paths)[number]>('path').data(paths).join('path'), { class: (d) => d.name, d: (d) => d.d || null });
  const names = limbs.flatMap((limb) => {
    let best = -1;
    for (const s of seen) if (limbValue(rates, unit, limb, s) > (best < 0 ? 0 : limbValue(rates, unit, limb, best))) best = s;
    return best < 0 ? [] : [{ limb, x: x(limbValue(rates, unit, limb, best)) + 6, y: rows.centre(best), text: `${LIMB_WORDS[limb]} ${figure(limbValue(rates, unit, limb, best), unit === 'heights' ? 2 : 0)}` }];
  }).sort((a, b) => a.y - b.y);
  // names that would lie on each other go down a line
  for (let k = 1; k < names.length; k++) names[k]!.y = Math.max(names[k]!.y, names[k - 1]!.y + 16);
  put(
    svg.selectAll<SVGTextElement, (typeof names)[number]>('text').data(names, (d) => d.limb).join('text'),
    { x: (d) => d.x, y: (d) => d.y, 'dominant-baseline': 'middle' },
  ).text((d) => d.text);
}
