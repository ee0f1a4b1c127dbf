/**
 * A flight: the height of the centre of mass from the step before it leaves the floor to the step after it is back, and the parabola of
 * free fall at the size that the figure reads as (`balance/flights.ts`). Across goes film time, ticked by steps; up goes millimetres over the floor.
 *
 * `flightArc` works out what is to be seen (pure, tested); `drawFlightArc` puts it into an SVG.
 */
import { line, scaleLinear, select } from 'd3';
import type { Flight } from '../../balance/balance.ts';
import { figure } from '../figures.ts';

export interface FlightArcInput {
  readonly flight: Flight;
  /** `[N·3]` centre of mass, mm; NaN where not known. */
  readonly massMm: ArrayLike<number>;
  /** `[N]` s. */
  readonly filmTimeS: ArrayLike<number>;
  /** Of free fall on the set, mm/s² of film time. */
  readonly gravityMmS2: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface ArcPoint {
  /** From 0. */
  readonly step: number;
  readonly x: number;
  readonly y: number;
  readonly inAir: boolean;
}

export interface FlightArc {
  /** Steps of which the height is known. */
  readonly points: readonly ArcPoint[];
  /** Line through the points and the parabola, as paths. */
  readonly own: string;
  readonly fall: string;
  /** Half-way between the last pose that touches and the first that does not, and back again, px. */
  readonly leaveX: number;
  readonly landX: number;
  readonly ticksX: readonly { readonly x: number; readonly words: string }[];
  readonly ticksY: readonly { readonly y: number; readonly words: string }[];
  /** What stands at the axes, with their units. */
  readonly wordsX: string;
  readonly wordsY: string;
}

/** Room for figures and words of the axes, px. */
export const ARC_PAD = { left: 52, right: 14, top: 26, bottom: 46 } as const;
const LEAST_TICK_PX = 26;
/** Pieces of the parabola; it is drawn straight between them. */
const PIECES = 32;
/** Steps are called evenly spaced if no gap differs by more than this part. */
const EVEN = 0.01;

/** Height of the parabola at a film time, mm: the one whose heights at the flight's steps are `parabolaMm`. */
export function fallHeightAt({ fromStep, toStep, parabolaMm }: Flight, filmTimeS: ArrayLike<number>, gravityMmS2: number, timeS: number): number {
  const startS = filmTimeS[fromStep]!;
  const longS = filmTimeS[toStep]! - startS;
  const first = parabolaMm[0]!;
  // of one step alone nothing tells a speed: it is at its top there, as the fit has it
  const speed = longS > 0 ? (parabolaMm[parabolaMm.length - 1]! - first) / longS + (gravityMmS2 * longS) / 2 : 0;
  const t = timeS - startS;
  return first + speed * t - (gravityMmS2 * t * t) / 2;
}

export function flightArc({ flight, massMm, filmTimeS, gravityMmS2, widthPx, heightPx }: FlightArcInput): FlightArc {
  const { fromStep, toStep } = flight;
  const [leave, land] = [Math.max(0, fromStep - 1), Math.min(filmTimeS.length - 1, toStep + 1)];
  const steps = Array.from({ length: land - leave + 1 }, (_, k) => leave + k);
  const heights = steps.map((s) => ({ step: s, mm: massMm[s * 3 + 1] ?? Number.NaN })).filter(({ mm }) => Number.isFinite(mm));
  const leaveS = (filmTimeS[leave]! + filmTimeS[fromStep]!) / 2;
  const landS = (filmTimeS[toStep]! + filmTimeS[land]!) / 2;
  const falling = Array.from({ length: PIECES + 1 }, (_, k) => {
    const timeS = leaveS + ((landS - leaveS) * k) / PIECES;
    return { timeS, mm: fallHeightAt(flight, filmTimeS, gravityMmS2, timeS) };
  }).filter(({ mm }) => Number.isFinite(mm));
  const all = [...heights, ...falling].map(({ mm }) => mm);
  const [low, high] = all.length === 0 ? [0, 1] : [Math.min(...all), Math.max(...all)];
  const x = scaleLinear([filmTimeS[leave]!, Math.max(filmTimeS[land]!, filmTimeS[leave]! + 1e-6)], [ARC_PAD.left, widthPx - ARC_PAD.right]);
  const y = scaleLinear([low, Math.max(high, low + 1)], [heightPx - ARC_PAD.bottom, ARC_PAD.top]).nice(5);
  const points = heights.map(({ step, mm }): ArcPoint => ({ step, x: x(filmTimeS[step]!), y: y(mm), inAir: step >= fromStep && step <= toStep }));
  const every = Math.max(1, Math.ceil((LEAST_TICK_PX * steps.length) / Math.max(1, widthPx - ARC_PAD.left - ARC_PAD.right)));
  const gaps = steps.slice(1).map((s) => filmTimeS[s]! - filmTimeS[s - 1]!);
  const even = gaps.every((gap) => Math.abs(gap - gaps[0]!) <= EVEN * gaps[0]!);
  return {
    points,
    own: line<ArcPoint>((p) => p.x, (p) => p.y)([...points]) ?? '',
    fall: line<{ timeS: number; mm: number }>((p) => x(p.timeS), (p) => y(p.mm))(falling) ?? '',
    leaveX: x(leaveS),
    landX: x(landS),
    ticksX: steps.filter((_, k) => k % every === 0).map((s) => ({ x: x(filmTimeS[s]!), words: String(s + 1) })),
    ticksY: y.ticks(5).map((mm) => ({ y: y(mm), words: figure(mm, y.ticks(5).every((t) => Number.isInteger(t)) ? 0 : 1) })),
    wordsX: even && gaps.length > 0 ? `step, ${figure(gaps[0]!, 3)} s of film apart` : 'step, spaced by film time',
    wordsY: 'centre of mass over the floor, mm',
  };
}

/** The flight that a step is in or nearest to; −1 where there are none. */
export function nearestFlight(flights: readonly Flight[], step: number): number {
  const away = ({ fromStep, toStep }: Flight): number => Math.max(0, fromStep - step, step - toStep);
  return flights.reduce((best, flight, k) => (best < 0 || away(flight) < away(flights[best]!) ? k : best), -1);
}

/** Half the side of the sign of a step that touches, radius of one in the air and of the ring about the playhead's, px. */
const TOUCH_PX = 4;
const AIR_PX = 3;
const HERE_PX = 8;

/** Draws into an SVG as large as the arc was made for. @param step that of the playhead, from 0 */
export function drawFlightArc(svgElement: SVGSVGElement, arc: FlightArc, step: number, widthPx: number, heightPx: number): void {
  const svg = select(svgElement);
  const bottom = heightPx - ARC_PAD.bottom;
  const circle = (x: number, y: number, r: number): string => `M${x - r},${y}a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0`;
  const paths = [
    { name: 'arc-grid', d: arc.ticksY.map(({ y }) => `M${ARC_PAD.left},${y}H${widthPx - ARC_PAD.right}`).join('') },
    { name: 'arc-ends', d: [arc.leaveX, arc.landX].map((x) => `M${x},${ARC_PAD.top}V${bottom}`).join('') },
    { name: 'arc-ticks', d: arc.ticksX.map(({ x }) => `M${x},${bottom}v5`).join('') },
    { name: 'arc-fall', d: arc.fall },
    { name: 'arc-own', d: arc.own },
    { name: 'arc-air', d: arc.points.filter(({ inAir }) => inAir).map(({ x, y }) => circle(x, y, AIR_PX)).join('') },
    { name: 'arc-touch', d: arc.points.filter(({ inAir }) => !inAir).map(({ x, y }) => `M${x - TOUCH_PX},${y - TOUCH_PX}h${2 * TOUCH_PX}v${2 * TOUCH_PX}h${-2 * TOUCH_PX}z`).join('') },
    { name: 'arc-here', d: arc.points.filter((point) => point.step === step).map(({ x, y }) => circle(x, y, HERE_PX)).join('') },
  ];
  svg.selectAll('path').data(paths).join('path').attr('class', (d) => d.name).attr('d', (d) => d.d || null);
  const texts = [
    ...arc.ticksX.map(({ x, words }) => ({ x, y: bottom + 18, anchor: 'middle', text: words })),
    ...arc.ticksY.map(({ y, words }) => ({ x: ARC_PAD.left - 8, y: y + 4, anchor: 'end', text: words })),
    { x: widthPx - ARC_PAD.right, y: heightPx - 8, anchor: 'end', text: arc.wordsX },
    { x: 4, y: 14, anchor: 'start', text: arc.wordsY },
  ];
  svg.selectAll('text').data(texts).join('text').attr('x', (d) => d.x).attr('y', (d) => d.y).attr('text-anchor', (d) => d.anchor).text((d) => d.text);
}
