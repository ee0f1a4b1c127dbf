/**
 * From where one looks at the stage, and where a point of it then lies on the paper. Views are without perspective, so that
 * the picture is true to scale everywhere and a length can be read off it.
 */
import { cross, dot, scale, subtract, type Vec3 } from '../../numeric/vector3.ts';

/**
 * Direction of looking: `turnDeg` about the vertical (0 from the camera's side, 90 from the puppet's right, which is the
 * left of the picture), `raiseDeg` above the floor (90 from straight above).
 */
export interface View {
  readonly turnDeg: number;
  readonly raiseDeg: number;
}

export const VIEW_NAMES = ['front', 'side', 'top', 'turned'] as const;
export type ViewName = (typeof VIEW_NAMES)[number];

export const VIEWS: Readonly<Record<ViewName, View>> = {
  front: { turnDeg: 0, raiseDeg: 0 },
  side: { turnDeg: 90, raiseDeg: 0 },
  top: { turnDeg: 0, raiseDeg: 90 },
  turned: { turnDeg: 32, raiseDeg: 16 },
};

/** Right, up and toward the eye, as unit vectors of the stage. */
export interface ViewAxes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
}

const RAD = Math.PI / 180;

export function viewAxes({ turnDeg, raiseDeg }: View): ViewAxes {
  const [turn, raise] = [turnDeg * RAD, raiseDeg * RAD];
  const toward: Vec3 = [Math.cos(turn) * Math.cos(raise), Math.sin(raise), Math.sin(turn) * Math.cos(raise)];
  const right: Vec3 = [Math.sin(turn), 0, -Math.cos(turn)];
  return { right, up: cross(toward, right), toward };
}

/** A view after being turned by so much; it never goes over the top or under the floor by more than a little. */
export function orbited(view: View, turnDeg: number, raiseDeg: number): View {
  const turn = (((view.turnDeg + turnDeg + 180) % 360) + 360) % 360 - 180;
  return { turnDeg: turn, raiseDeg: Math.max(-10, Math.min(90, view.raiseDeg + raiseDeg)) };
}

/** The view that has a name, or `null` for one between. */
export function nameOfView(view: View): ViewName | null {
  return VIEW_NAMES.find((name) => VIEWS[name].turnDeg === view.turnDeg && VIEWS[name].raiseDeg === view.raiseDeg) ?? null;
}

/** A rectangle of paper and what of the stage is on it: `centreMm` lies in its middle. */
export interface Paper {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pxPerMm: number;
  readonly centreMm: Vec3;
}

/** Where a point lies on the paper: px from its left and upper edge, and how near to the eye, mm. */
export function project(axes: ViewAxes, paper: Paper, pointMm: Vec3): { readonly x: number; readonly y: number; readonly nearMm: number } {
  const d = subtract(pointMm, paper.centreMm);
  return {
    x: paper.widthPx / 2 + dot(d, axes.right) * paper.pxPerMm,
    y: paper.heightPx / 2 - dot(d, axes.up) * paper.pxPerMm,
    nearMm: dot(d, axes.toward),
  };
}

/** The paper on which a box fits whole with a margin. Without axes it fits from every side that isn't raised further than `turned`, and from above. */
export function paperFor(box: { readonly min: Vec3; readonly max: Vec3 }, axes: ViewAxes | null, widthPx: number, heightPx: number, marginPx: number): Paper {
  const centreMm = scale([box.min[0] + box.max[0], box.min[1] + box.max[1], box.min[2] + box.max[2]], 0.5);
  const size = subtract(box.max, box.min);
  const across = (direction: Vec3): number => Math.abs(direction[0]) * size[0] + Math.abs(direction[1]) * size[1] + Math.abs(direction[2]) * size[2];
  const wideMm = axes === null ? Math.hypot(size[0], size[2]) : across(axes.right);
  const highMm = axes === null ? Math.max(wideMm, size[1] + wideMm * Math.sin(VIEWS.turned.raiseDeg * RAD)) : across(axes.up);
  const pxPerMm = Math.min(Math.max(1, widthPx - 2 * marginPx) / Math.max(1, wideMm), Math.max(1, heightPx - 2 * marginPx) / Math.max(1, highMm));
  return { widthPx, heightPx, pxPerMm, centreMm };
}

/** A round length whose drawing is at least `leastPx` long: 1, 2, 5, 10, 20, 50 … mm. */
export function roundMm(pxPerMm: number, leastPx: number): number {
  for (let power = 1; ; power *= 10) for (const k of [1, 2, 5]) if (k * power * pxPerMm >= leastPx) return k * power;
}

/** Paper under a glass: drawn `zoom` times larger and shifted by px to the right and down. */
export function underGlass(paper: Paper, axes: ViewAxes, zoom: number, shiftPx: readonly [number, number]): Paper {
  const pxPerMm = paper.pxPerMm * zoom;
  const [x, y] = shiftPx;
  const c = paper.centreMm;
  const by = (i: 0 | 1 | 2): number => c[i] - (axes.right[i] * x) / pxPerMm + (axes.up[i] * y) / pxPerMm;
  return { ...paper, pxPerMm, centreMm: [by(0), by(1), by(2)] };
}
