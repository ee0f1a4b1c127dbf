/**
 * A puppet drawn flat, to scale, from one side: what the editor and browsers without 3D show.
 *
 * `flatFigure` works out what is to be seen (pure, tested); `drawFlat` puts it into an SVG.
 */
import { polygonHull, type Selection, select } from 'd3';
import { ensureHatch } from '../hatch.ts';
import { type FigureJointKind, type FigurePose, type FigureShape, isKnown, onStage } from './figure.ts';
import { type Paper, project, roundMm, type View, viewAxes } from './view.ts';
import { jointSymbol } from './jointSymbol.ts';
import type { Vec3 } from '../../numeric/vector3.ts';

export interface FlatBone {
  readonly part: number;
  readonly side: 'left' | 'right' | 'middle';
  /** Ends, px. */
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly widthPx: number;
  readonly nearMm: number;
}

export interface FlatJoint {
  readonly part: number;
  readonly kind: FigureJointKind;
  readonly x: number;
  readonly y: number;
  readonly radiusPx: number;
}

export interface FlatFigure {
  /** Farthest first. */
  readonly bones: readonly FlatBone[];
  readonly joints: readonly FlatJoint[];
  /** Corners of each foot's shoe, px; its outline is their hull. */
  readonly soles: readonly (readonly (readonly [number, number])[])[];
  /** Where the floor is seen edge-on, px from the top; `undefined` from above. */
  readonly floorY: number | undefined;
  /** Lines of the millimetre grid from the floor up and from the middle out, px, and how far apart they are, mm. */
  readonly gridX: readonly number[];
  readonly gridY: readonly number[];
  readonly gridMm: number;
}

/** Corners of a sole and of the shoe's upper edge, half as high as the joint. */
function shoe(soleMm: readonly Vec3[]): Vec3[] {
  return [...soleMm, ...soleMm.map(([x, y, z]): Vec3 => [x, y / 2, z])];
}

/** Smallest radius at which a joint can still be hit, px. */
const LEAST_JOINT_PX = 6;

export function flatFigure(shape: FigureShape, pose: FigurePose, view: View, paper: Paper): FlatFigure {
  const axes = viewAxes(view);
  const at = (part: number, mm: Vec3): ReturnType<typeof project> => project(axes, paper, onStage(pose, part, mm));
  const bones: FlatBone[] = [];
  const joints: FlatJoint[] = [];
  const soles: [number, number][][] = [];
  shape.parts.forEach((part, p) => {
    if (!isKnown(pose, p)) return;
    const [a, b] = [at(p, part.fromMm), at(p, part.toMm)];
    bones.push({ part: p, side: part.side, x1: a.x, y1: a.y, x2: b.x, y2: b.y, widthPx: Math.max(2, 2 * part.radiusMm * paper.pxPerMm), nearMm: (a.nearMm + b.nearMm) / 2 });
    if (part.joint !== null) {
      const o = at(p, [0, 0, 0]);
      joints.push({ part: p, kind: part.joint.kind, x: o.x, y: o.y, radiusPx: Math.max(LEAST_JOINT_PX, part.joint.radiusMm * paper.pxPerMm) });
    }
    if (part.soleMm.length > 2) soles.push(shoe(part.soleMm).map((corner): [number, number] => { const c = at(p, corner); return [c.x, c.y]; }));
  });
  bones.sort((a, b) => a.nearMm - b.nearMm);
  const gridMm = roundMm(paper.pxPerMm, 14);
  const zero = project(axes, paper, [0, 0, 0]);
  const lines = (from: number, size: number): number[] => {
    const step = gridMm * paper.pxPerMm;
    const out: number[] = [];
    for (let v = from - Math.floor(from / step) * step; v <= size; v += step) out.push(v);
    return out;
  };
  return {
    bones, joints, soles,
    floorY: Math.abs(axes.up[1]) > 0.999 ? zero.y : undefined,
    gridX: lines(zero.x, paper.widthPx), gridY: lines(zero.y, paper.heightPx), gridMm,
  };
}

export interface FlatMarks {
  readonly picked: (part: number) => boolean;
  readonly moved: (part: number) => boolean;
  readonly unsure: (part: number) => boolean;
  readonly ghostShown: (which: 'before' | 'after', part: number) => boolean;
}

const NO_MARKS: FlatMarks = { picked: () => false, moved: () => false, unsure: () => false, ghostShown: () => false };

type Layer = Selection<SVGGElement, unknown, null, undefined>;

function layer(svg: Selection<SVGSVGElement, unknown, null, undefined>, name: string): Layer {
  return svg.selectAll<SVGGElement, string>(`g.${name}`).data([name]).join('g').attr('class', name) as unknown as Layer;
}

const line = (b: FlatBone): string => `M${b.x1.toFixed(1)},${b.y1.toFixed(1)}L${b.x2.toFixed(1)},${b.y2.toFixed(1)}`;

/**
 * Draws into an SVG as large as the paper; `id` is unique in the page, for the hatch. Every bone and joint carries its index
 * in `data-part`, to be picked by.
 *
 * @param ghosts the same figure one step before and after
 */
export function drawFlat(svgElement: SVGSVGElement, figure: FlatFigure, paper: Paper, id: string, marks: FlatMarks = NO_MARKS, ghosts: { readonly before?: FlatFigure | null; readonly after?: FlatFigure | null } = {}): void {
  const svg = select(svgElement);
  const hatch = ensureHatch(svg, `${id}-hatch`);
  const grid = layer(svg, 'flat-grid');
  grid.selectAll('path').data([
    figure.gridX.map((x) => `M${x.toFixed(1)},0V${paper.heightPx}`).join('') + figure.gridY.map((y) => `M0,${y.toFixed(1)}H${paper.widthPx}`).join(''),
  ]).join('path').attr('d', (d) => d);
  layer(svg, 'flat-floor').selectAll('path').data(figure.floorY === undefined ? [] : [figure.floorY]).join('path').attr('d', (y) => `M0,${y.toFixed(1)}H${paper.widthPx}`);
  layer(svg, 'flat-soles').selectAll('path').data(figure.soles.map((corners) => polygonHull([...corners].map(([x, y]): [number, number] => [x, y])) ?? [])).join('path').attr('d', (corners) => corners.length === 0 ? null : `M${corners.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join('L')}z`);
  for (const which of ['before', 'after'] as const) {
    layer(svg, `flat-${which}`).selectAll('path').data((ghosts[which]?.bones ?? []).filter((b) => marks.ghostShown(which, b.part)))
      .join('path').attr('d', line).attr('stroke-width', (b) => b.widthPx).attr('stroke', which === 'before' ? hatch : null);
  }
  const bones = layer(svg, 'flat-bones').selectAll<SVGGElement, FlatBone>('g.flat-bone').data(figure.bones, (b) => b.part).join((enter) => {
    const g = enter.append('g').attr('class', 'flat-bone');
    for (const name of ['flat-edge', 'flat-body', 'flat-side', 'flat-unsure']) g.append('path').attr('class', name);
    return g;
  }).order();
  bones.attr('data-part', (b) => b.part).classed('moved', (b) => marks.moved(b.part)).classed('picked', (b) => marks.picked(b.part));
  bones.select('.flat-edge').attr('d', line).attr('stroke-width', (b) => b.widthPx + 4);
  bones.select('.flat-body').attr('d', line).attr('stroke-width', (b) => b.widthPx);
  // The right half is dashed along its middle, as it is in the picture of the take.
  bones.select('.flat-side').attr('d', (b) => (b.side === 'right' ? line(b) : null)).attr('stroke-width', (b) => b.widthPx);
  bones.select('.flat-unsure').attr('d', (b) => (marks.unsure(b.part) ? line(b) : null)).attr('stroke-width', (b) => b.widthPx).attr('stroke', hatch);
  layer(svg, 'flat-joints').selectAll<SVGPathElement, FlatJoint>('path').data(figure.joints, (j) => j.part).join('path')
    .attr('data-part', (j) => j.part)
    .classed('picked', (j) => marks.picked(j.part))
    .attr('d', (j) => jointSymbol(j.kind, j.radiusPx)).attr('transform', (j) => `translate(${j.x.toFixed(1)},${j.y.toFixed(1)})`);
}
