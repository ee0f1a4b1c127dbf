/**
 * Corrections of what rides on the figure: hands and feet keep the model's own offsets from the joint that carries them, the head is
 * laid over the picture by itself; a word about them shifts a landmark (placed in the picture) or turns the head.
 */
import { readVec3, type Vec3 } from '../../numeric/vector3.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { Figure } from '../fit/figure.ts';
import { FACE_COUNT } from '../fit/head.ts';
import { FIGURE_LANDMARKS, POINT_COUNT, SHOULDER_AT, SPINE_AT } from '../fit/layout.ts';
import { carrierOf, type AdjustCarried } from '../fit/output.ts';
import type { PlacedJoint, TypedAngle } from './corrections.ts';
import { headAngles, trunkAxes, turnedHead } from './headTurn.ts';
import { frameAt } from './moments.ts';
import { clockOf, spreadWords, type Spread, type Word } from './spread.ts';

const RAD = Math.PI / 180;

/** The camera that placed landmarks were seen by. */
interface Lens {
  readonly focalPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** @returns what changes the offsets of a finished figure in place, or `null` where nothing was said about what it carries */
export function carriedWords(timesS: Float64Array, lens: Lens, placed: readonly PlacedJoint[], angles: readonly TypedAngle[]): AdjustCarried | null {
  const shifted = placed.filter(({ landmark }) => !FIGURE_LANDMARKS.includes(LANDMARK[landmark]));
  const turned = angles.filter(({ joint }) => joint === 'head' || joint === 'neck');
  if (shifted.length + turned.length === 0) return null;
  const still = new Float64Array(timesS.length);
  const spread = (words: readonly Word[]): Spread => spreadWords(clockOf(timesS, still, still), words);
  return (figure, offsets, face) => {
    turnHead(figure, face, turned, timesS, spread);
    for (const name of new Set(shifted.map(({ landmark }) => landmark))) {
      const isFace = LANDMARK[name] < FACE_COUNT;
      shift(figure, isFace ? { points: face, width: FACE_COUNT } : { points: offsets, width: LANDMARK_COUNT }, LANDMARK[name], shifted.filter(({ landmark }) => landmark === name), timesS, lens, spread);
    }
  };
}

/** Where the joint that carries a landmark is, in the first camera's frame; the face's landmarks have places of their own. */
function carrierAt(figure: Figure, frame: number, landmark: number): Vec3 {
  return landmark < FACE_COUNT ? [0, 0, 0] : readVec3(figure.points, frame * POINT_COUNT + FIGURE_LANDMARKS.indexOf(carrierOf(landmark)));
}

/** Landmarks [T·width·3]. */
interface Riders {
  readonly points: Float64Array;
  readonly width: number;
}

/** Shifts a landmark's offset across the view so that it is seen where it was put. */
function shift(
  figure: Figure, { points, width }: Riders, landmark: number, placed: readonly PlacedJoint[], timesS: Float64Array, lens: Lens,
  spread: (words: readonly Word[]) => Spread,
): void {
  const { focalPx, widthPx, heightPx } = lens;
  const words = placed.flatMap(({ timeS, x, y }): Word[] => {
    const frame = frameAt(timesS, timeS);
    if (frame < 0) return [];
    const carrier = carrierAt(figure, frame, landmark);
    const offset = readVec3(points, frame * width + landmark);
    const by = (carrier[2] + offset[2]) / focalPx;
    return [{ frame, values: [(x - 0.5) * widthPx * by - carrier[0] - offset[0], (y - 0.5) * heightPx * by - carrier[1] - offset[1]] }];
  });
  if (words.length === 0) return;
  const { values } = spread(words);
  for (let t = 0; t < figure.frames; t++) {
    for (let axis = 0; axis < 2; axis++) {
      const i = (t * width + landmark) * 3 + axis;
      points[i] = points[i]! + values[t * 2 + axis]!;
    }
  }
}

/** Turns the head's landmarks; turn and nod are spread apart, so that a word about one leaves the other alone. */
function turnHead(
  figure: Figure, face: Float64Array, angles: readonly TypedAngle[], timesS: Float64Array, spread: (words: readonly Word[]) => Spread,
): void {
  if (angles.length === 0) return;
  const axes = (t: number): ReturnType<typeof trunkAxes> => {
    const part = (at: number): Vec3 => readVec3(figure.free, t * 4 + at / 3);
    const a = part(SHOULDER_AT);
    return trunkAxes(part(SPINE_AT), [-a[0], -a[1], -a[2]]);
  };
  const headOf = (t: number) => (landmark: number): Vec3 => readVec3(face, t * FACE_COUNT + landmark);
  const words = (joint: 'head' | 'neck'): Word[] => angles.flatMap((typed): Word[] => {
    const frame = typed.joint === joint ? frameAt(timesS, typed.timeS) : -1;
    const trunk = frame < 0 ? undefined : axes(frame);
    const now = trunk && headAngles(face, frame * FACE_COUNT * 3, trunk);
    if (now === undefined) return [];
    return [{ frame, values: [typed.angleDeg * RAD - (joint === 'neck' ? now.turnRad : now.nodRad)] }];
  });
  const [turns, nods] = [words('neck'), words('head')];
  const turn = turns.length > 0 ? spread(turns).values : null;
  const nod = nods.length > 0 ? spread(nods).values : null;
  for (let t = 0; t < figure.frames; t++) {
    const [byTurn, byNod] = [turn?.[t] ?? 0, nod?.[t] ?? 0];
    const trunk = axes(t);
    if ((byTurn === 0 && byNod === 0) || trunk === undefined) continue;
    const move = turnedHead(headOf(t), trunk, byTurn, byNod);
    const moved = Array.from({ length: FACE_COUNT }, (_, landmark) => move(headOf(t)(landmark)));
    moved.forEach((at, landmark) => face.set(at, (t * FACE_COUNT + landmark) * 3));
  }
}
