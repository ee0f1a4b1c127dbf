/** One joint in two timings of a take: film time down, its angle across. Data in, picture out. */
import { extent, line, scaleLinear, select } from 'd3';
import { figure } from './figures.ts';

/** `filmS` rising; `angleDeg` at the same moments, NaN where it is missing. */
export interface VersionAngle {
  readonly filmS: ArrayLike<number>;
  readonly angleDeg: ArrayLike<number>;
}

const PAD = { left: 44, right: 14, top: 34, bottom: 12 };
/** A joint that hardly moves is not blown up to fill the width, degrees. */
const LEAST_SPAN_DEG = 10;

export function drawVersionAngles(
  svgElement: SVGSVGElement, { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number }, first: VersionAngle, second: VersionAngle,
): void {
  const svg = select(svgElement);
  const angles = [...Array.from(first.angleDeg), ...Array.from(second.angleDeg)].filter(Number.isFinite);
  const [low = 0, high = 0] = extent(angles);
  const room = Math.max(0, LEAST_SPAN_DEG - (high - low)) / 2;
  const x = scaleLinear([low - room, high + room], [PAD.left, widthPx - PAD.right]).nice(4);
  const end = Math.max(first.filmS[first.filmS.length - 1] ?? 0, second.filmS[second.filmS.length - 1] ?? 0, 1e-3);
  const y = scaleLinear([0, end], [PAD.top, heightPx - PAD.bottom]);
  const path = ({ filmS, angleDeg }: VersionAngle): string =>
    line<number>((k) => x(angleDeg[k]!), (k) => y(filmS[k]!)).defined((k) => Number.isFinite(angleDeg[k]!))(Array.from({ length: filmS.length }, (_, k) => k)) ?? '';
  const rungs = [...y.ticks(5).map((t) => `M${PAD.left},${y(t)}H${widthPx - PAD.right}`), ...x.ticks(4).map((t) => `M${x(t)},${PAD.top}V${heightPx - PAD.bottom}`)].join('');
  svg.selectAll('path').data([{ name: 'rung', d: rungs }, { name: 'timing-first', d: path(first) }, { name: 'timing-second', d: path(second) }])
    .join('path').attr('class', (d) => d.name).attr('d', (d) => d.d);
  const texts = [
    ...y.ticks(5).map((t) => ({ key: `y${t}`, x: PAD.left - 6, y: y(t), anchor: 'end', text: figure(t, 1) })),
    ...x.ticks(4).map((t) => ({ key: `x${t}`, x: x(t), y: PAD.top - 10, anchor: 'middle', text: figure(t, 0) })),
    { key: 'unit-y', x: 4, y: 10, anchor: 'start', text: 'film, s ↓' },
    { key: 'unit-x', x: widthPx - PAD.right, y: 10, anchor: 'end', text: 'angle, ° →' },
  ];
  svg.selectAll<SVGTextElement, (typeof texts)[number]>('text').data(texts, (d) => d.key).join('text')
    .attr('x', (d) => d.x).attr('y', (d) => d.y).attr('text-anchor', (d) => d.anchor).attr('dominant-baseline', 'middle').text((d) => d.text);
}
