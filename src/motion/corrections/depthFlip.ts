/**
 * Turning a limb over in depth: each bone is mirrored about the plane square to the line of sight, which leaves its picture as it
 * was, and from then on its depth keeps that sign.
 */
import { settle, type Figure } from '../fit/figure.ts';
import type { SignRow } from '../fit/handSet.ts';
import { BONE_COUNT, BONE_END, BONE_START, LIMB_NAMES, POINT_COUNT } from '../fit/layout.ts';
import type { DepthFlip } from './corrections.ts';
import { framesIn } from './moments.ts';

/** A bone keeps at least this share of the depth that the mirrored one has: the rest is the picture's to say. */
const LEAST_SHARE = 0.5;

/** Bones of a limb that a flip means. */
export function bonesOf({ limb, bone }: Pick<DepthFlip, 'limb' | 'bone'>): readonly number[] {
  const upper = LIMB_NAMES.indexOf(limb) * 2;
  return bone === 'both' ? [upper, upper + 1] : bone === 'upper' ? [upper] : [upper + 1];
}

/** Unit vector from the lens to the middle of a bone. */
function sight(figure: Figure, frame: number, bone: number): [number, number, number] {
  const a = (frame * POINT_COUNT + BONE_START[bone]!) * 3;
  const b = (frame * POINT_COUNT + BONE_END[bone]!) * 3;
  const v = [0, 1, 2].map((k) => figure.points[a + k]! + figure.points[b + k]!) as [number, number, number];
  const by = 1 / (Math.hypot(...v) || 1);
  return [v[0] * by, v[1] * by, v[2] * by];
}

/**
 * Mirrors bones in place.
 *
 * @param timesS times of the figure's frames
 * @returns the signs that hold from now on; a bone turned twice in a frame is where it was and has none
 */
export function flipDepth(figure: Figure, timesS: Float64Array, flips: readonly DepthFlip[]): SignRow[] {
  const turned = new Uint8Array(figure.frames * BONE_COUNT);
  for (const flip of flips) {
    const span = framesIn(timesS, flip.fromS, flip.toS);
    if (span === null) continue;
    for (let t = span[0]; t <= span[1]; t++) for (const bone of bonesOf(flip)) turned[t * BONE_COUNT + bone]! ^= 1;
  }
  const signs: SignRow[] = [];
  for (let i = 0; i < turned.length; i++) {
    if (turned[i] === 0) continue;
    const [frame, bone] = [Math.floor(i / BONE_COUNT), i % BONE_COUNT];
    const ray = sight(figure, frame, bone);
    const d = figure.directions.subarray(i * 3, i * 3 + 3);
    const along = d[0]! * ray[0] + d[1]! * ray[1] + d[2]! * ray[2];
    for (let k = 0; k < 3; k++) d[k] = d[k]! - 2 * along * ray[k]!;
    signs.push({ frame, bone, ray, sign: along > 0 ? -1 : 1, least: LEAST_SHARE * Math.abs(along) });
  }
  settle(figure);
  return signs;
}
