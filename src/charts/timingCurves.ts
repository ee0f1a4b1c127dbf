/** Two timings of one take: film time down, time of the take across. Data in, picture out. */
import { line, scaleLinear, select } from 'd3';
import { figure } from './figures.ts';

/** `filmS` and `sourceS` of the same moments, rising. */
export interface TimingCurve {
  readonly filmS: ArrayLike<number>;
  readonly sourceS: ArrayLike<number>;
}

const PAD = { left: 44, right: 14, top: 34, bottom: 26 };

export function drawTimingCurves(
  svgElement: SVGSVGElement, { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number }, first: TimingCurve, second: TimingCurve, names: readonly [string, string],
): void {
  const svg = select(svgElement);
  const both = [first, second];
  const most = (pick: (curve: TimingCurve) => ArrayLike<number>): number => Math.max(...both.map((curve) => pick(curve)[pick(curve).length - 1] ?? 0));
  const least = Math.min(...both.map(({ sourceS }) => sourceS[0] ?? 0));
  const x = scaleLinear([least, Math.max(least + 1e-3, most((c) => c.sourceS))], [PAD.left, widthPx - PAD.right]);
  const y = scaleLinear([0, Math.max(1e-3, most((c) => c.filmS))], [PAD.top, heightPx - PAD.bottom]);
  const path = (curve: TimingCurve): string =>
    line<number>((k) => x(curve.sourceS[k]!), (k) => y(curve.filmS[k]!))(Array.from({ length: curve.filmS.length }, (_, k) => k)) ?? '';
  const rungs = [...y.ticks(5).map((t) => `M${PAD.left},${y(t)}H${widthPx - PAD.right}`), ...x.ticks(4).map((t) => `M${x(t)},${PAD.top}V${heightPx - PAD.bottom}`)].join('');
  svg.selectAll('path').data([{ name: 'rung', d: rungs }, { name: 'timing-first', d: path(first) }, { name: 'timing-second', d: path(second) }])
    .join('path').attr('class', (d) => d.name).attr('d', (d) => d.d);
  const end = (curve: TimingCurve): number => y(curve.filmS[curve.filmS.length - 1] ?? 0);
  const texts = [
    ...y.ticks(5).map((t) => ({ key: `y${t}`, x: PAD.left - 6, y: y(t), anchor: 'end', text: figure(t, 1) })),
    ...x.ticks(4).map((t) => ({ key: `x${t}`, x: x(t), y: PAD.top - 10, anchor: 'middle', text: figure(t, 1) })),
    { key: 'unit-y', x: 4, y: 10, anchor: 'start', text: 'film, s ↓' },
    { key: 'unit-x', x: widthPx - PAD.right, y: 10, anchor: 'end', text: 'take, s →' },
    { key: 'first', x: widthPx - PAD.right - 4, y: Math.min(heightPx - 8, end(first) + (end(first) >= end(second) ? 14 : -8)), anchor: 'end', text: `— ${names[0]}` },
    { key: 'second', x: widthPx - PAD.right - 4, y: Math.min(heightPx - 8, end(second) + (end(second) > end(first) ? 14 : -8)), anchor: 'end', text: `- - ${names[1]}` },
  ];
  svg.selectAll<SVGTextElement, (typeof texts)[number]>('text').data(texts, (d) => d.key).join('text')
    .attr('x', (d) => d.x).attr('y', (d) => d.y).attr('text-anchor', (d) => d.anchor).attr('dominant-baseline', 'middle').text((d) => d.text);
}
