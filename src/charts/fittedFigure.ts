/**
 * The fitted figure over its footage, beside the landmarks that were measured: hollow bones, where the skeleton's are full.
 * As there, the performer's left is drawn whole and the right dashed. A joint put in its place by hand is a square.
 */
import type { LandmarkName } from '../pose/landmarks.ts';
import { type Pen, sideOfBone, type SkeletonLook, type SkeletonPlace } from './skeleton.ts';

/** Bones of the figure: what the fit keeps at a constant length, and the lines across the trunk. */
export const FIGURE_BONES: readonly (readonly [LandmarkName, LandmarkName])[] = [
  ['leftShoulder', 'rightShoulder'], ['leftHip', 'rightHip'], ['leftShoulder', 'leftHip'], ['rightShoulder', 'rightHip'],
  ['leftShoulder', 'leftElbow'], ['leftElbow', 'leftWrist'], ['rightShoulder', 'rightElbow'], ['rightElbow', 'rightWrist'],
  ['leftHip', 'leftKnee'], ['leftKnee', 'leftAnkle'], ['rightHip', 'rightKnee'], ['rightKnee', 'rightAnkle'],
];

export interface FigureJoint {
  /** Fractions of the upright frame. */
  readonly x: number;
  readonly y: number;
  readonly byHand: boolean;
}

/** A point of the upright frame on the canvas. */
export function onCanvas({ x, y }: { readonly x: number; readonly y: number }, place: SkeletonPlace): { readonly x: number; readonly y: number } {
  return { x: place.x + (place.mirror ? 1 - x : x) * place.width, y: place.y + y * place.height };
}

/** The way back: fractions of the upright frame under a point of the canvas. */
export function inFrame({ x, y }: { readonly x: number; readonly y: number }, place: SkeletonPlace): { readonly x: number; readonly y: number } {
  const across = (x - place.x) / place.width;
  return { x: place.mirror ? 1 - across : across, y: (y - place.y) / place.height };
}

/**
 * @param jointOf where each joint of the figure lies, `null` where it is not known
 * @param chosen joint to be ringed
 */
export function drawFittedFigure(
  pen: Pen, jointOf: (name: LandmarkName) => FigureJoint | null, place: SkeletonPlace, look: SkeletonLook, chosen: string | null,
): void {
  const wide = look.bonePx * 2.2;
  pen.lineCap = 'butt';
  pen.lineJoin = 'round';
  for (const pass of ['edge', 'ink'] as const) {
    for (const [a, b] of FIGURE_BONES) {
      const [from, to] = [jointOf(a), jointOf(b)];
      if (from === null || to === null) continue;
      const side = sideOfBone(a, b);
      const isRight = place.mirror ? side === 'left' : side === 'right';
      const [p, q] = [onCanvas(from, place), onCanvas(to, place)];
      const long = Math.hypot(q.x - p.x, q.y - p.y) || 1;
      const [nx, ny] = [(-(q.y - p.y) / long) * (wide / 2), ((q.x - p.x) / long) * (wide / 2)];
      pen.strokeStyle = pass === 'ink' ? look.ink : look.edge;
      pen.lineWidth = pass === 'edge' ? 4 : 2;
      pen.setLineDash(pass === 'ink' && isRight ? [wide * 1.1, wide * 0.7] : []);
      // The two edges of the bone: what lies behind it stays to be seen.
      for (const sign of [-1, 1]) {
        pen.beginPath();
        pen.moveTo(p.x + sign * nx, p.y + sign * ny);
        pen.lineTo(q.x + sign * nx, q.y + sign * ny);
        pen.stroke();
      }
    }
  }
  pen.setLineDash([]);
  const seen = new Set<LandmarkName>(FIGURE_BONES.flat());
  for (const name of seen) {
    const joint = jointOf(name);
    if (joint === null) continue;
    const p = onCanvas(joint, place);
    const size = look.bonePx * 1.9;
    pen.fillStyle = joint.byHand ? look.ink : look.edge;
    pen.strokeStyle = joint.byHand ? look.edge : look.ink;
    pen.lineWidth = 1.5;
    pen.beginPath();
    if (joint.byHand) {
      for (const [dx, dy] of [[-1, -1], [1, -1], [1, 1], [-1, 1], [-1, -1]] as const) {
        if (dx === -1 && dy === -1) pen.moveTo(p.x - size, p.y - size);
        pen.lineTo(p.x + dx * size, p.y + dy * size);
      }
    } else {
      pen.arc(p.x, p.y, size, 0, 2 * Math.PI);
    }
    pen.fill();
    pen.stroke();
    if (name !== chosen) continue;
    for (const [colour, width] of [[look.edge, 5], [look.ink, 2]] as const) {
      pen.strokeStyle = colour;
      pen.lineWidth = width;
      pen.beginPath();
      pen.arc(p.x, p.y, size + 8, 0, 2 * Math.PI);
      pen.stroke();
    }
  }
}
