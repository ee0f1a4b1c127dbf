/**
 * The set from above at one step: soles, base of support, centre of mass with its error and its way, the extrapolated one, and
 * where it would go over the edge. The camera in front stands below the picture: X (toward it) points down, Z to the left.
 */
import { select } from 'd3';
import type { Balance } from '../../balance/balance.ts';
import { figure, jointWords } from '../figures.ts';

/** A sole on the set at the step, mm `[x, z, …]`. */
export interface SoleSeen {
  readonly name: string;
  readonly outlineMm: readonly number[];
  readonly state: 'stands' | 'tied' | 'lifted' | 'unseen';
}

export interface PlanViewInput {
  readonly balance: Balance;
  readonly step: number;
  readonly soles: readonly SoleSeen[];
  /** Middle of the picture, mm on the set: X, Z. */
  readonly centreMm: readonly [number, number];
  readonly pxPerMm: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Steps of the way that are drawn before and after. */
const WAY_STEPS = 8;

export function drawPlanView(svgElement: SVGSVGElement, { balance, step, soles, centreMm, pxPerMm, widthPx, heightPx }: PlanViewInput): void {
  const svg = select(svgElement);
  const px = (x: number, z: number): readonly [number, number] => [widthPx / 2 - (z - centreMm[1]) * pxPerMm, heightPx / 2 + (x - centreMm[0]) * pxPerMm];
  const at = (x: number, z: number): string => px(x, z).map((v) => v.toFixed(1)).join(',');
  const ring = (points: ArrayLike<number>): string => {
    if (points.length < 4) return '';
    let d = '';
    for (let k = 0; k < points.length; k += 2) d += `${k === 0 ? 'M' : 'L'}${at(points[k]!, points[k + 1]!)}`;
    return `${d}z`;
  };
  const place = (s: number): readonly [number, number] | null => {
    const [x, z] = [balance.massMm[s * 3], balance.massMm[s * 3 + 2]];
    return x === undefined || z === undefined || Number.isNaN(x) ? null : [x, z];
  };
  const mass = place(step);
  const way: string[] = [];
  for (let s = step - WAY_STEPS; s <= step + WAY_STEPS; s++) {
    const here = s < 0 ? null : place(s);
    if (here !== null) way.push(at(...here));
  }
  const moved: readonly [number, number] | null = Number.isNaN(balance.movedMm[step * 2] ?? Number.NaN) ? null : [balance.movedMm[step * 2]!, balance.movedMm[step * 2 + 1]!];
  const toward = balance.towardDeg[step] ?? Number.NaN;
  const margin = balance.standMm[step] ?? Number.NaN;
  const out = (toward * Math.PI) / 180;
  const edge: readonly [number, number] | null = mass === null || Number.isNaN(margin) ? null : [mass[0] + Math.cos(out) * margin, mass[1] + Math.sin(out) * margin];
  const ellipse = mass === null ? '' : ((): string => {
    const [cx, cy] = px(...mass);
    const [rx, ry] = [balance.massSigmaMm[step * 2 + 1]! * pxPerMm, balance.massSigmaMm[step * 2]! * pxPerMm];
    return Number.isFinite(rx) && Number.isFinite(ry) ? `M${cx - rx},${cy}a${rx},${ry} 0 1,0 ${2 * rx},0a${rx},${ry} 0 1,0 ${-2 * rx},0` : '';
  })();
  const cross = mass === null ? '' : ((): string => {
    const [cx, cy] = px(...mass);
    return `M${cx - 9},${cy}h18M${cx},${cy - 9}v18`;
  })();
  const kite = moved === null ? '' : ((): string => {
    const [cx, cy] = px(...moved);
    return `M${cx},${cy - 7}l7,7l-7,7l-7,-7z`;
  })();
  const of = (state: SoleSeen['state']): string => soles.filter((sole) => sole.state === state).map(({ outlineMm }) => ring(outlineMm)).join('');
  const scaleMm = 20;
  const paths = [
    { name: 'sole sole-lifted', d: of('lifted') }, { name: 'sole sole-unseen', d: of('unseen') }, { name: 'sole sole-stands', d: of('stands') }, { name: 'sole sole-tied', d: of('tied') },
    { name: 'support', d: ring(balance.support[step] ?? []) },
    { name: 'mass-way', d: way.length < 2 ? '' : `M${way.join('L')}` },
    { name: 'mass-sigma', d: ellipse },
    { name: 'mass-edge', d: edge === null || mass === null ? '' : `M${at(...mass)}L${at(...edge)}` },
    { name: 'mass-moved-line', d: moved === null || mass === null ? '' : `M${at(...mass)}L${at(...moved)}` },
    { name: 'mass-moved', d: kite },
    { name: 'mass', d: cross },
    { name: 'scale-bar', d: `M14,${heightPx - 14}v-6v3h${scaleMm * pxPerMm}v-3v6` },
    { name: 'peg', d: soles.filter(({ state }) => state === 'tied').map(({ outlineMm }) => peg(px(...middle(outlineMm)))).join('') },
  ];
  svg.selectAll('path').data(paths).join('path').attr('class', (d) => d.name).attr('d', (d) => d.d || null);
  const texts = [
    ...soles.map(({ name, outlineMm, state }) => {
      const [x, y] = px(...middle(outlineMm));
      return { key: name, x, y: y + 4, anchor: 'middle', text: `${/^left/i.test(name) ? 'L' : /^right/i.test(name) ? 'R' : jointWords(name)}${state === 'lifted' ? ' up' : state === 'unseen' ? ' ?' : ''}` };
    }),
    ...(edge === null ? [] : [{ key: 'margin', x: px(...edge)[0] + 8, y: px(...edge)[1] - 8, anchor: 'start', text: `${figure(margin, 1)} mm` }]),
    { key: 'scale', x: 14 + scaleMm * pxPerMm + 8, y: heightPx - 12, anchor: 'start', text: `${scaleMm} mm` },
    { key: 'camera', x: widthPx / 2, y: heightPx - 12, anchor: 'middle', text: 'camera in front ↓' },
  ];
  svg.selectAll<SVGTextElement, (typeof texts)[number]>('text').data(texts, (d) => d.key).join('text').attr('x', (d) => d.x).attr('y', (d) => d.y).attr('text-anchor', (d) => d.anchor).text((d) => d.text);
}

function middle(points: readonly number[]): readonly [number, number] {
  let [x, z] = [0, 0];
  for (let k = 0; k < points.length; k += 2) {
    x += points[k]!;
    z += points[k + 1]!;
  }
  return [(x * 2) / points.length, (z * 2) / points.length];
}

function peg([x, y]: readonly [number, number]): string {
  return `M${x - 5},${y - 12}h10M${x},${y - 12}v7`;
}
