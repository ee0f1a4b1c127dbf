/**
 * The set from above at one step: soles and hands that bear, base of support, centre of mass with its error and its way, the
 * extrapolated one, and where it would go over the edge. The front of the set is below the picture: X points down, Z to the left.
 *
 * `planPicture` works out what is to be seen (pure, tested); `drawPlanView` puts it into an SVG.
 */
import { select } from 'd3';
import type { Balance } from '../../balance/balance.ts';
import { figure, jointWords } from '../figures.ts';
import { boxAround, fieldOf, freePlace, type Box } from './labelPlaces.ts';
import { cameraSign } from './cameraSign.ts';

/** Whether something touches: `tied` stands and is tied down; `unseen` the take could not tell, so it carries nothing; `unknown` nothing was judged at all. */
export type TouchState = 'stands' | 'tied' | 'lifted' | 'unseen' | 'unknown';

/** A sole on the set at the step, mm `[x, z, …]`. */
export interface SoleSeen {
  readonly name: string;
  readonly outlineMm: readonly number[];
  readonly state: TouchState;
}

/** A hand or another bone that was said to touch: its middle, mm. */
export interface PadSeen {
  readonly name: string;
  readonly atMm: readonly [number, number];
  readonly state: TouchState;
}

export interface PlanViewInput {
  readonly balance: Balance;
  readonly step: number;
  readonly soles: readonly SoleSeen[];
  readonly pads: readonly PadSeen[];
  /** Which way the taking camera stands, degrees from the front toward the puppet's right, and how far down it looks. */
  readonly camera: { readonly azimuthDeg: number; readonly elevationDeg: number };
  /** Centre of mass of the same step with or without a correction, mm, and its word; `null`: none is compared. */
  readonly other: { readonly atMm: readonly [number, number]; readonly word: string } | null;
  /** Middle of the picture, mm on the set: X, Z. */
  readonly centreMm: readonly [number, number];
  readonly pxPerMm: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface PlanText {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly text: string;
}

export interface PlanPicture {
  readonly paths: readonly { readonly name: string; readonly d: string }[];
  readonly texts: readonly PlanText[];
}

/** Steps of the way that are drawn before and after. */
const WAY_STEPS = 8;
const SCALE_MM = 20;
const STATE_WORDS: Readonly<Record<TouchState, string>> = { stands: '', tied: '', lifted: ' up', unseen: ' ?', unknown: '' };

/** How a sole is called in the picture: by its side alone where that says which. */
function shortName(name: string, soles: readonly SoleSeen[]): string {
  const side = /^left/i.exec(name) ?? /^right/i.exec(name);
  if (side === null) return jointWords(name);
  const letter = side[0][0]!.toUpperCase();
  const alone = soles.filter((other) => other.name.toLowerCase().startsWith(side[0].toLowerCase())).length < 2;
  return alone ? letter : `${letter}${jointWords(name.slice(side[0].length))}`;
}

export function planPicture({ balance, step, soles, pads, camera, other, centreMm, pxPerMm, widthPx, heightPx }: PlanViewInput): PlanPicture {
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
  const edge: readonly [number, number] | null = mass === null || Number.isNaN(margin) || Number.isNaN(out) ? null : [mass[0] + Math.cos(out) * margin, mass[1] + Math.sin(out) * margin];
  const ellipse = mass === null ? '' : ((): string => {
    const [cx, cy] = px(...mass);
    const [rx, ry] = [balance.massSigmaMm[step * 2 + 1]! * pxPerMm, balance.massSigmaMm[step * 2]! * pxPerMm];
    return Number.isFinite(rx) && Number.isFinite(ry) ? `M${cx - rx},${cy}a${rx},${ry} 0 1,0 ${2 * rx},0a${rx},${ry} 0 1,0 ${-2 * rx},0` : '';
  })();
  const shape = (where: readonly [number, number] | null, draw: (x: number, y: number) => string): string => (where === null ? '' : draw(...px(...where)));
  const of = (state: TouchState): string =>
    soles.filter((sole) => sole.state === state).map(({ outlineMm }) => ring(outlineMm)).join('')
    + pads.filter((pad) => pad.state === state).map(({ atMm }) => shape(atMm, (x, y) => `M${x - 7},${y - 7}h14v14h-14z`)).join('');
  const seen = cameraSign(camera, widthPx, heightPx);
  const paths = [
    { name: 'sole sole-lifted', d: of('lifted') }, { name: 'sole sole-unseen', d: of('unseen') + of('unknown') }, { name: 'sole sole-stands', d: of('stands') }, { name: 'sole sole-tied', d: of('tied') },
    { name: 'support', d: ring(balance.support[step] ?? []) },
    { name: 'mass-way', d: way.length < 2 ? '' : `M${way.join('L')}` },
    { name: 'mass-sigma', d: ellipse },
    { name: 'mass-edge', d: edge === null || mass === null ? '' : `M${at(...mass)}L${at(...edge)}` },
    { name: 'mass-moved-line', d: moved === null || mass === null ? '' : `M${at(...mass)}L${at(...moved)}` },
    { name: 'mass-moved', d: shape(moved, (x, y) => `M${x},${y - 7}l7,7l-7,7l-7,-7z`) },
    { name: 'mass-other', d: shape(other?.atMm ?? null, (x, y) => `M${x - 6},${y - 6}l12,12M${x - 6},${y + 6}l12,-12`) },
    { name: 'mass', d: shape(mass, (x, y) => `M${x - 9},${y}h18M${x},${y - 9}v18`) },
    { name: 'scale-bar', d: `M14,12v6v-3h${(SCALE_MM * pxPerMm).toFixed(1)}v3v-6` },
    { name: 'peg', d: soles.filter(({ state }) => state === 'tied').map(({ outlineMm }) => peg(px(...middle(outlineMm)))).join('') },
    { name: 'camera', d: seen.d },
  ];
  const letters = [
    ...soles.map(({ name, outlineMm, state }): PlanText => {
      const [x, y] = px(...middle(outlineMm));
      return { key: name, x, y: y + 4, anchor: 'middle', text: `${shortName(name, soles)}${STATE_WORDS[state]}` };
    }),
    ...pads.map(({ name, atMm, state }): PlanText => {
      const [x, y] = px(...atMm);
      return { key: name, x, y: y + 22, anchor: 'middle', text: `${jointWords(name)}${STATE_WORDS[state]}` };
    }),
  ];
  const scale: PlanText = { key: 'scale', x: 14 + SCALE_MM * pxPerMm + 8, y: 20, anchor: 'start', text: `${SCALE_MM} mm` };
  const taken: Box[] = [...letters, scale, ...seen.texts].map(boxAround);
  if (mass !== null) taken.push(fieldOf(px(...mass), 10));
  const beside = (key: string, where: readonly [number, number], text: string): PlanText => {
    const placed = freePlace(px(...where), text, taken, widthPx, heightPx);
    taken.push(boxAround({ ...placed, text }));
    return { key, ...placed, text };
  };
  const texts = [
    ...letters, scale, ...seen.texts,
    ...(edge === null ? [] : [beside('margin', edge, `${figure(margin, 1)} mm`)]),
    ...(other === null ? [] : [beside('other', other.atMm, other.word)]),
  ];
  return { paths, texts };
}

export function drawPlanView(svgElement: SVGSVGElement, input: PlanViewInput): void {
  const svg = select(svgElement);
  const { paths, texts } = planPicture(input);
  svg.selectAll('path').data(paths).join('path').attr('class', (d) => d.name).attr('d', (d) => d.d || null);
  svg.selectAll<SVGTextElement, PlanText>('text').data(texts, (d) => d.key).join('text').attr('x', (d) => d.x).attr('y', (d) => d.y).attr('text-anchor', (d) => d.anchor).text((d) => d.text);
}

/**
 * What cannot be seen in the picture alone, in a sentence: feet and hands of which nobody knows whether they touch, or why nothing is drawn; empty
 * where all is known.
 *
 * @param posed whether the step has a pose at all
 */
export function unseenWords(soles: readonly SoleSeen[], pads: readonly PadSeen[], posed = true): string {
  if (!posed) return 'There is no pose at this step.';
  if (soles.length + pads.length === 0) return 'This puppet has no sole, so nothing is drawn from above: say under Touches which bone bears on the set.';
  const names = [...soles, ...pads].filter(({ state }) => state === 'unseen').map(({ name }) => jointWords(name));
  if (names.length === 0) return '';
  const list = names.length === 1 ? `The ${names[0]!} is` : `The ${names.slice(0, -1).join(', the ')} and the ${names[names.length - 1]!} are`;
  return `${list} not seen in the take at this step (?), so no weight is put there. Say under Touches whether ${names.length === 1 ? 'it stands' : 'they stand'}.`;
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
