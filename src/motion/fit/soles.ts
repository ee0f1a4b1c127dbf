/**
 * Which foot stands when, told from three points of it: ankle, heel and toes. From heel strike to toe off a walking foot rolls,
 * and stands on some part of its sole while its ankle moves on; the ankle itself is only held still while the foot lies flat.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import { findContacts, overrideContacts, type ContactOverride } from './contacts.ts';
import type { Figure } from './figure.ts';
import { acrossOf, gravityOf, type Gravity } from './gravity.ts';
import { PITCH_AT, POINT, POINT_COUNT, ROLL_AT } from './layout.ts';
import { fillHoles, interpolate } from './series.ts';
import type { View } from './view.ts';

/** [T·2] left and right foot, 0 or 1: whether the ankle is held still, and whether the foot stands on anything of its sole. */
export interface Stands {
  readonly planted: Float64Array;
  readonly standing: Float64Array;
}

type Points = Float64Array;
const SOLE = [[LANDMARK.leftHeel, LANDMARK.rightHeel], [LANDMARK.leftFootIndex, LANDMARK.rightFootIndex]] as const;
const ANKLE = [LANDMARK.leftAnkle, LANDMARK.rightAnkle] as const;

/** From pixels alone, at the depth that the placed root and the world landmarks give each ankle. */
export function rawStands(view: View, root: Float64Array, override: ContactOverride | undefined): Stands {
  const { world } = view.track;
  const frames = view.track.timesS.length;
  const depthM = Float64Array.from({ length: frames * 2 }, (_, i) => {
    const z = world[(Math.floor(i / 2) * LANDMARK_COUNT + ANKLE[i % 2]!) * 3 + 2]!;
    return root[Math.floor(i / 2) * 3 + 2]! + (Number.isNaN(z) ? 0 : z);
  });
  const level = gravityOf(0, 0);
  return stands(view, inLevel(view, ANKLE, depthM, level), depthM, level, override);
}

/** From the figure at its knots, level with the fitted camera; heels and toes from their pixels at the figure's depth. */
export function fittedStands(view: View, figure: Figure, knotTimes: Float64Array, override: ContactOverride | undefined): Stands {
  const level = gravityOf(figure.globals[PITCH_AT]!, figure.globals[ROLL_AT]!);
  const ankles = new Float64Array(figure.frames * 6);
  const depths = new Float64Array(figure.frames * 2);
  for (let t = 0; t < figure.frames; t++) {
    for (const [foot, point] of [POINT.leftAnkle, POINT.rightAnkle].entries()) {
      const i = (t * POINT_COUNT + point) * 3;
      writeLevel(level, figure.seen[i]!, figure.seen[i + 1]!, figure.seen[i + 2]!, ankles, (t * 2 + foot) * 3);
      depths[t * 2 + foot] = figure.seen[i + 2]!;
    }
  }
  const { timesS } = view.track;
  return stands(view, interpolate(ankles, 6, knotTimes, timesS), interpolate(depths, 2, knotTimes, timesS), level, override);
}

function stands(view: View, ankles: Points, depthM: Float64Array, level: Gravity, override: ContactOverride | undefined): Stands {
  const { found, timesS } = view.track;
  const planted = findContacts(ankles, found, timesS);
  const standing = planted.slice();
  for (const kind of SOLE) {
    const rests = findContacts(inLevel(view, kind, depthM, level), found, timesS);
    for (let i = 0; i < standing.length; i++) standing[i] = Math.max(standing[i]!, rests[i]!);
  }
  overrideContacts(planted, override);
  overrideContacts(standing, override);
  return { planted, standing };
}

/** A pair of landmarks [T·2·3]: right, up, away; metres; from their pixels at a given depth, holes bridged. */
function inLevel({ track, focalPx }: View, pair: readonly [number, number], depthM: Float64Array, level: Gravity): Points {
  const frames = track.timesS.length;
  const out = new Float64Array(frames * 6).fill(Number.NaN);
  for (let t = 0; t < frames; t++) {
    if (track.found[t] !== 1) continue;
    for (const [foot, landmark] of pair.entries()) {
      const i = (t * LANDMARK_COUNT + landmark) * 3;
      const z = depthM[t * 2 + foot]!;
      const by = z / focalPx;
      writeLevel(level, (track.image[i]! - 0.5) * track.widthPx * by, (track.image[i + 1]! - 0.5) * track.heightPx * by, z, out, (t * 2 + foot) * 3);
    }
  }
  fillHoles(out, 6, track.timesS);
  return out;
}

function writeLevel(level: Gravity, x: number, y: number, z: number, out: Float64Array, at: number): void {
  for (const [k, axis] of [acrossOf(level), level.up, level.away].entries()) out[at + k] = axis[0] * x + axis[1] * y + axis[2] * z;
}
