/**
 * The skeleton over its footage. The performer's left is drawn solid, the right dashed, both with a letter at wrist and
 * ankle; a landmark that is out of sight is hollow and what hangs on it is thin and dotted. Works on anything that has the
 * few calls of a canvas, so that it can be tested without one.
 */
import { LANDMARK, LANDMARK_BONES, LANDMARK_COUNT, type LandmarkName } from '../pose/landmarks.ts';
import type { Track } from '../pose/track.ts';

/** The calls of a 2D canvas that are used here. */
export type Pen = Pick<
  CanvasRenderingContext2D,
  | 'beginPath' | 'moveTo' | 'lineTo' | 'arc' | 'stroke' | 'fill' | 'setLineDash' | 'fillText' | 'strokeText'
  | 'lineWidth' | 'strokeStyle' | 'fillStyle' | 'font' | 'textAlign' | 'textBaseline' | 'lineCap' | 'lineJoin'
>;

export interface SkeletonLook {
  /** Line colour, and the dark edge that keeps it apart from bright footage. */
  readonly ink: string;
  readonly edge: string;
  readonly fontFamily: string;
  /** Thickness of a bone, px. */
  readonly bonePx: number;
}

export interface SkeletonPlace {
  /** Rectangle on the canvas that the upright frame fills, px. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Draw as in a mirror: picture and letters change sides. */
  readonly mirror: boolean;
}

/** Which side of the performer a bone belongs to; across the trunk it is `middle`. */
export function sideOfBone(a: LandmarkName, b: LandmarkName): 'left' | 'right' | 'middle' {
  const side = (name: LandmarkName): string => (/^left|Left$/.test(name) ? 'left' : /^right|Right$/.test(name) ? 'right' : 'middle');
  const [sa, sb] = [side(a), side(b)];
  if (sa === sb) return sa as 'left' | 'right' | 'middle';
  if (sa === 'middle') return sb as 'left' | 'right';
  if (sb === 'middle') return sa as 'left' | 'right';
  return 'middle';
}

const LETTERED: readonly LandmarkName[] = ['leftWrist', 'rightWrist', 'leftAnkle', 'rightAnkle'];

/** Landmarks that get a dot: the joints; the points of face and hand would only be clutter. */
const DOTTED: readonly LandmarkName[] = [
  'nose', 'leftShoulder', 'rightShoulder', 'leftElbow', 'rightElbow', 'leftWrist', 'rightWrist', 'leftHip', 'rightHip',
  'leftKnee', 'rightKnee', 'leftAnkle', 'rightAnkle', 'leftFootIndex', 'rightFootIndex',
];

/**
 * Draws one frame of a track.
 *
 * @param frame index in the track; a frame with nobody found draws nothing and returns false
 * @param outOfSight whether landmark `i` of a frame cannot be seen in the picture
 * @returns whether a person was drawn
 */
export function drawSkeleton(
  pen: Pen,
  track: Track,
  frame: number,
  place: SkeletonPlace,
  look: SkeletonLook,
  outOfSight: (frame: number, landmark: number) => boolean,
): boolean {
  if (!track.found[frame]) return false;
  const at = (name: LandmarkName): { x: number; y: number; hidden: boolean } => {
    const i = LANDMARK[name];
    const base = (frame * LANDMARK_COUNT + i) * 3;
    const u = track.image[base] ?? Number.NaN;
    return {
      x: place.x + (place.mirror ? 1 - u : u) * place.width,
      y: place.y + (track.image[base + 1] ?? Number.NaN) * place.height,
      hidden: outOfSight(frame, i),
    };
  };
  pen.lineCap = 'round';
  pen.lineJoin = 'round';
  for (const pass of ['edge', 'ink'] as const) {
    for (const [a, b] of LANDMARK_BONES) {
      const from = at(a);
      const to = at(b);
      const hidden = from.hidden || to.hidden;
      const side = sideOfBone(a, b);
      const isRight = place.mirror ? side === 'left' : side === 'right';
      pen.strokeStyle = pass === 'edge' ? look.edge : look.ink;
      pen.lineWidth = (hidden ? look.bonePx * 0.45 : look.bonePx) + (pass === 'edge' ? 2.5 : 0);
      pen.setLineDash(hidden ? [1, look.bonePx * 2] : isRight ? [look.bonePx * 2.6, look.bonePx * 2.4] : []);
      pen.beginPath();
      pen.moveTo(from.x, from.y);
      pen.lineTo(to.x, to.y);
      pen.stroke();
    }
  }
  pen.setLineDash([]);
  for (const name of DOTTED) {
    const p = at(name);
    pen.beginPath();
    pen.arc(p.x, p.y, look.bonePx * 1.35, 0, 2 * Math.PI);
    pen.fillStyle = p.hidden ? look.edge : look.ink;
    pen.strokeStyle = p.hidden ? look.ink : look.edge;
    pen.lineWidth = p.hidden ? 1.5 : 1.25;
    pen.fill();
    pen.stroke();
  }
  pen.font = `650 15px ${look.fontFamily}`;
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  for (const name of LETTERED) {
    const p = at(name);
    const isLeft = name.startsWith('left') !== place.mirror;
    const outward = p.x < at(name.endsWith('Wrist') ? 'nose' : 'leftHip').x ? -1 : 1;
    const x = p.x + outward * (look.bonePx * 1.35 + 12);
    pen.strokeStyle = look.edge;
    pen.lineWidth = 4;
    pen.strokeText(isLeft ? 'L' : 'R', x, p.y);
    pen.fillStyle = look.ink;
    pen.fillText(isLeft ? 'L' : 'R', x, p.y);
  }
  return true;
}

/** The rectangle of a frame of `frameW × frameH` fitted whole and centred into `boxW × boxH`. */
export function fitRect(frameW: number, frameH: number, boxW: number, boxH: number): Omit<SkeletonPlace, 'mirror'> {
  const scale = Math.min(boxW / frameW, boxH / frameH);
  const width = frameW * scale;
  const height = frameH * scale;
  return { x: (boxW - width) / 2, y: (boxH - height) / 2, width, height };
}
