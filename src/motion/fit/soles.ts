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
  return stands(view, depthM, level, override);
}

/** The same at the depth of the figure at its knots, level with the fitted camera; the figure's own ankles are asked as well. */
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
  const { timesS, found } = view.track;
  const byFigure = findContacts(interpolate(ankles, 6, knotTimes, timesS), found, timesS);
  return stands(view, interpolate(depths, 2, knotTimes, timesS), level, override, byFigure);
}

function stands(view: View, rawDepthM: Float64Array, level: Gravity, override: ContactOverride | undefined, byFigure?: Float64Array): Stands {
  const { found, timesS } = view.track;
  const depthM = steadyDepth(rawDepthM, timesS);
  const planted = findContacts(inLevel(view, ANKLE, depthM, level), found, timesS).map((stands, i) => Math.max(stands, byFigure?.[i] ?? 0));
  standUnseen(view, depthM, planted);
  const standing = planted.slice();
  for (const kind of SOLE) {
    const rests = findContacts(inLevel(view, kind, depthM, level), found, timesS);
    for (let i = 0; i < standing.length; i++) standing[i] = Math.max(standing[i]!, rests[i]!);
  }
  overrideContacts(planted, override);
  overrideContacts(standing, override);
  return { planted, standing };
}

/**
 * Depth of the feet without its quick changes: the line through all that lies within a second. Whether a foot rests is seen in
 * the picture, and a guess of depth that wavers as the body crouches must not move it.
 */
function steadyDepth(depthM: Float64Array, timesS: Float64Array): Float64Array {
  const frames = timesS.length;
  const out = new Float64Array(frames * 2);
  let first = 0;
  let last = 0;
  for (let t = 0; t < frames; t++) {
    while (timesS[first]! < timesS[t]! - STEADY_S) first++;
    while (last < frames - 1 && timesS[last + 1]! <= timesS[t]! + STEADY_S) last++;
    const n = last - first + 1;
    let meanT = 0;
    for (let u = first; u <= last; u++) meanT += (timesS[u]! - timesS[t]!) / n;
    for (let foot = 0; foot < 2; foot++) {
      let mean = 0;
      let tt = 0;
      let td = 0;
      for (let u = first; u <= last; u++) {
        const d = timesS[u]! - timesS[t]! - meanT;
        mean += depthM[u * 2 + foot]! / n;
        tt += d * d;
        td += d * depthM[u * 2 + foot]!;
      }
      out[t * 2 + foot] = mean - (tt > 0 ? (td / tt) * meanT : 0);
    }
  }
  return out;
}
/** Reach of that line (chosen: longer than a crouch or a jump). */
const STEADY_S = 1;

/** A foot that is hidden all along (behind a table) is taken to stand while the hips stay where they are. */
function standUnseen({ track, focalPx }: View, depthM: Float64Array, planted: Float64Array): void {
  const { timesS, visibility, image } = track;
  const frames = timesS.length;
  const across = (t: number): number =>
    ((image[(t * LANDMARK_COUNT + LANDMARK.leftHip) * 3]! + image[(t * LANDMARK_COUNT + LANDMARK.rightHip) * 3]!) / 2) * track.widthPx * (depthM[t * 2]! / focalPx);
  for (let t = 0; t < frames; t++) {
    const a = Math.max(0, t - 2);
    const b = Math.min(frames - 1, t + 2);
    if (a === b || track.found[a] !== 1 || track.found[b] !== 1) continue;
    if (Math.abs(across(b) - across(a)) / (timesS[b]! - timesS[a]!) >= HIPS_REST_M_S) continue;
    for (let foot = 0; foot < 2; foot++) {
      if (visibility[t * LANDMARK_COUNT + ANKLE[foot]!]! < UNSEEN_BELOW) planted[t * 2 + foot] = 1;
    }
  }
}
/** As where a limb counts as hidden. */
const UNSEEN_BELOW = 0.5;
const HIPS_REST_M_S = 0.25;

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
