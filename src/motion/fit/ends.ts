/**
 * Hands laid over the picture, and feet set level where they stand: offsets of the landmarks that ride on wrists and ankles.
 *
 * The model's own metres of a hand are off by tens of degrees: its depth is squeezed and drawn to one side, and what they
 * say across the view doesn't agree with the picture, where the same landmarks lie well. So knuckles go where the picture
 * shows them, on the rays through their landmarks. How far along the ray a hand lies, the picture can't tell: it goes on in
 * depth as its forearm does (wrists bend little, and a bend across the view is seen all the same).
 *
 * Heel and toe landmarks don't lie level when a foot stands flat; by how much, differs between models and takes. The
 * median slope of a foot that stands under an upright shank is taken off it in every frame.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { Figure } from './figure.ts';
import type { Gravity } from './gravity.ts';
import { POINT, POINT_COUNT } from './layout.ts';
import { fillHoles, quantile } from './series.ts';
import type { View } from './view.ts';

/** A hand that looks shorter than this, metres, still goes on in depth by so much: one that points at the lens. Half a palm. Our choice. */
const LEAST_HAND_M = 0.045;
/** A forearm that shows less than this share of its length gives the hand no steeper way. Our choice. */
const LEAST_ACROSS = 0.3;
/** A shank within this of upright has a flat foot under it, if it stands: who kneels stands on the toes. Our choice. */
const UPRIGHT_COS = Math.cos((35 * Math.PI) / 180);
/** Fewer frames of standing than this tell no slope. Our choice: a third of a second of film. */
const LEAST_STANDING = 8;

const SIDES = ['left', 'right'] as const;
const WIDTH = LANDMARK_COUNT * 3;

/**
 * @param offsets `[T·33·3]` from the carrying joint, camera axes, metres; changed in place for hands and feet
 * @param planted `[T·2]` above 0 where a foot stands
 * @param timesS T times
 */
export function layEnds(offsets: Float64Array, figure: Figure, view: View, planted: Float64Array, gravity: Gravity, timesS: Float64Array): void {
  for (const side of SIDES) layHand(offsets, figure, view, side);
  fillHoles(offsets, WIDTH, timesS);
  SIDES.forEach((side, foot) => { levelFoot(offsets, figure, side, (t) => planted[t * 2 + foot]! > 0, gravity.up); });
}

function layHand(offsets: Float64Array, { frames, points }: Figure, { track, focalPx }: View, side: 'left' | 'right'): void {
  const wrist = LANDMARK[`${side}Wrist`];
  const hand = [LANDMARK[`${side}Index`], LANDMARK[`${side}Pinky`], LANDMARK[`${side}Thumb`]];
  const sizePx = [track.widthPx, track.heightPx];
  for (let t = 0; t < frames; t++) {
    const place = (l: number): number => t * WIDTH + l * 3;
    if (track.found[t] !== 1) {
      for (const l of hand) offsets.fill(Number.NaN, place(l), place(l) + 3);
      continue;
    }
    const w = (t * POINT_COUNT + POINT[`${side}Wrist`]) * 3;
    const e = (t * POINT_COUNT + POINT[`${side}Elbow`]) * 3;
    const z = points[w + 2]!;
    /** Landmark from the wrist's own landmark, on the picture, metres at the wrist's depth. */
    const seen = (l: number, c: number): number => ((track.image[place(l) + c]! - track.image[place(wrist) + c]!) * sizePx[c]! * z) / focalPx;
    const [index, pinky] = [hand[0]!, hand[1]!];
    const seenM = Math.hypot(seen(index, 0) + seen(pinky, 0), seen(index, 1) + seen(pinky, 1)) / 2;
    const bone = [points[w]! - points[e]!, points[w + 1]! - points[e + 1]!, points[w + 2]! - points[e + 2]!] as const;
    const across = Math.hypot(bone[0], bone[1]);
    const deeper = (bone[2] / Math.max(across, LEAST_ACROSS * Math.hypot(...bone))) * Math.max(seenM, LEAST_HAND_M);
    const mean = (offsets[place(index) + 2]! + offsets[place(pinky) + 2]!) / 2;
    for (const l of hand) {
      const i = place(l);
      const dz = deeper + offsets[i + 2]! - mean;
      // on the ray: what lies deeper lies farther out
      for (let c = 0; c < 2; c++) offsets[i + c] = seen(l, c) * (1 + dz / z) + (points[w + c]! / z) * dz;
      offsets[i + 2] = dz;
    }
  }
}

function levelFoot(
  offsets: Float64Array, { frames, points }: Figure, side: 'left' | 'right', stands: (t: number) => boolean, up: Gravity['up'],
): void {
  const [heel, toes] = [LANDMARK[`${side}Heel`], LANDMARK[`${side}FootIndex`]];
  const sole = (t: number): number[] => [0, 1, 2].map((k) => offsets[t * WIDTH + toes * 3 + k]! - offsets[t * WIDTH + heel * 3 + k]!);
  const rise = (v: readonly number[]): number => v[0]! * up[0] + v[1]! * up[1] + v[2]! * up[2];
  const slopes: number[] = [];
  for (let t = 0; t < frames; t++) {
    if (!stands(t)) continue;
    const knee = (t * POINT_COUNT + POINT[`${side}Knee`]) * 3;
    const ankle = (t * POINT_COUNT + POINT[`${side}Ankle`]) * 3;
    const shank = [0, 1, 2].map((k) => points[knee + k]! - points[ankle + k]!);
    if (rise(shank) < UPRIGHT_COS * Math.hypot(...shank)) continue;
    const v = sole(t);
    slopes.push(Math.asin(Math.max(-1, Math.min(1, rise(v) / (Math.hypot(...v) || 1)))));
  }
  if (slopes.length < LEAST_STANDING) return;
  const slope = quantile(slopes, 0.5);
  for (let t = 0; t < frames; t++) {
    const v = sole(t);
    const high = rise(v);
    const flat = v.map((value, k) => value - high * up[k]!);
    const length = Math.hypot(...v);
    const flatLength = Math.hypot(...flat);
    if (!(flatLength > 0)) continue;
    const lifted = Math.atan2(high, flatLength) - slope;
    for (let k = 0; k < 3; k++) {
      offsets[t * WIDTH + toes * 3 + k] = offsets[t * WIDTH + heel * 3 + k]! + length * (Math.sin(lifted) * up[k]! + (Math.cos(lifted) * flat[k]!) / flatLength);
    }
  }
}
