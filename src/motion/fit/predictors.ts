/**
 * What each frame shows of each limb, and how well the fit agrees with it: the numbers from which an error can be told
 * without knowing the truth. Nothing here changes the figure.
 */
import { LANDMARK_COUNT } from '../../pose/landmarks.ts';
import { FLAG_AT_LENS, FLAG_FAR_FROM_IMAGE, FLAG_HIDDEN, FLAG_JUMPED, FLAG_NOBODY, type FittedBody } from './fittedBody.ts';
import type { Figure } from './figure.ts';
import {
  BONE_COUNT, BONE_END, DEPTH_VECTORS, depthGainAt, depthOffsetAt, FIGURE_LANDMARKS, HIP_AT, LENGTH_OF_BONE, LIMB_COUNT, LOG_LENGTH_AT, POINT_COUNT, SPINE_AT,
} from './layout.ts';
import { imageOffsets, JUMP_SIGMAS, jumpsOf } from './jumps.ts';
import type { Problem } from './problem.ts';
import type { View } from './view.ts';

/** A limb whose shorter-looking bone shows less than this share of its length points at the lens (lab: errors double below it). */
export const AT_LENS_FRACTION = 0.7;
const HIDDEN_BELOW = 0.5;
/** A joint this many image sigmas from its landmark was not believed. */
const FAR_SIGMAS = 4;

export type Predictors = Pick<FittedBody, 'inPlaneFraction' | 'boneInPlane' | 'toldRad' | 'apartRad' | 'bendToldRad' | 'bendApartRad' | 'imageResidualPx' | 'depthResidualM' | 'jumpPx'
| 'limbVisibility' | 'limbFlags' | 'gapS' | 'facingRad' | 'pxPerM'>;

/**
 * @param problem at full frame rate (one knot a frame)
 * @param rigid the figure with constant lengths
 */
export function describeFrames(problem: Problem, rigid: Figure, views: readonly View[]): Predictors {
  const { frames, free } = rigid;
  const { timesS } = problem;
  const camera = problem.cameras[0]!;
  const boneInPlane = inPlane(problem, rigid);
  const offPx = imageOffsets(camera, rigid);
  const { visibility } = views[0]!.track;
  const inPlaneFraction = new Float64Array(frames * LIMB_COUNT);
  const imageResidualPx = new Float64Array(frames * LIMB_COUNT);
  const depthResidualM = new Float64Array(frames * LIMB_COUNT);
  const jumpPx = new Float64Array(frames * LIMB_COUNT);
  const limbVisibility = new Float64Array(frames * LIMB_COUNT);
  const limbFlags = new Uint8Array(frames * LIMB_COUNT);
  const facingRad = new Float64Array(frames);
  const pxPerM = new Float64Array(frames);
  const jumps = jumpsOf(offPx, timesS);
  for (let t = 0; t < frames; t++) {
    const nobody = views.every((view) => view.track.found[t] !== 1);
    facingRad[t] = facing(free, t * 12);
    pxPerM[t] = camera.focalPx / free[t * 12 + 2]!;
    for (let limb = 0; limb < LIMB_COUNT; limb++) {
      const i = t * LIMB_COUNT + limb;
      let sum = 0;
      let weight = 0;
      let least = 1;
      let jump = 0;
      let depth = 0;
      for (let k = 0; k < 2; k++) {
        const bone = limb * 2 + k;
        const p = t * POINT_COUNT + BONE_END[bone]!;
        const w = camera.weight[p]!;
        least = Math.min(least, visibility[t * LANDMARK_COUNT + FIGURE_LANDMARKS[BONE_END[bone]!]!]!);
        if (w > 0) sum += w * Math.hypot(offPx[p * 2]!, offPx[p * 2 + 1]!);
        weight += w;
        jump = Math.max(jump, jumps[p]!);
        depth += Math.abs(depthOff(problem, rigid, t, bone)) / 2;
      }
      inPlaneFraction[i] = Math.min(boneInPlane[t * BONE_COUNT + limb * 2]!, boneInPlane[t * BONE_COUNT + limb * 2 + 1]!);
      imageResidualPx[i] = weight > 0 ? sum / weight : Number.NaN;
      depthResidualM[i] = depth;
      jumpPx[i] = jump;
      limbVisibility[i] = least;
      limbFlags[i] = (inPlaneFraction[i]! < AT_LENS_FRACTION ? FLAG_AT_LENS : 0) | (least < HIDDEN_BELOW ? FLAG_HIDDEN : 0)
        | (weight > 0 && sum / weight > FAR_SIGMAS * camera.sigmaPx ? FLAG_FAR_FROM_IMAGE : 0)
        | (jump > JUMP_SIGMAS * camera.sigmaPx ? FLAG_JUMPED : 0) | (nobody ? FLAG_NOBODY : 0);
    }
  }
  const gapS = gaps(timesS, (t) => views.some((view) => view.track.found[t] === 1));
  return { inPlaneFraction, boneInPlane, ...told(problem, rigid), imageResidualPx, depthResidualM, jumpPx, limbVisibility, limbFlags, gapS, facingRad, pxPerM };
}

/** Projected length over length of each bone [T·8], in the camera that sees most of it. */
function inPlane(problem: Problem, { frames, directions }: Figure): Float64Array {
  const out = new Float64Array(frames * BONE_COUNT);
  for (const { rotation: r } of problem.cameras) {
    for (let i = 0; i < out.length; i++) {
      const z = r[6]! * directions[i * 3]! + r[7]! * directions[i * 3 + 1]! + r[8]! * directions[i * 3 + 2]!;
      out[i] = Math.max(out[i]!, Math.sqrt(Math.max(0, 1 - z * z)));
    }
  }
  return out;
}

/** A bone along the view tells nothing of its turn by its depth: the sine of its angle to the view counts as at least this. */
const LEAST_SINE = 0.35;

/** What the reader says of each bone and each bend, by the camera that is surest: its sigma, and how far the fit is from it. */
function told(problem: Problem, { frames, directions: d }: Figure): Pick<FittedBody, 'toldRad' | 'apartRad' | 'bendToldRad' | 'bendApartRad'> {
  const toldRad = new Float64Array(frames * BONE_COUNT).fill(Number.POSITIVE_INFINITY);
  const apartRad = new Float64Array(frames * BONE_COUNT);
  const bendToldRad = new Float64Array(frames * LIMB_COUNT).fill(Number.POSITIVE_INFINITY);
  const bendApartRad = new Float64Array(frames * LIMB_COUNT);
  for (const { rotation: r, read } of problem.cameras) {
    if (read === null) continue;
    for (let i = 0; i < toldRad.length; i++) {
      const z = r[6]! * d[i * 3]! + r[7]! * d[i * 3 + 1]! + r[8]! * d[i * 3 + 2]!;
      const at = Math.floor(i / BONE_COUNT) * DEPTH_VECTORS + (i % BONE_COUNT);
      const sine = Math.max(LEAST_SINE, Math.sqrt(Math.max(0, 1 - z * z)));
      if (read.leanSigma[at]! / sine >= toldRad[i]!) continue;
      toldRad[i] = read.leanSigma[at]! / sine;
      apartRad[i] = Math.abs(read.lean[at]! - z) / sine;
    }
    for (let i = 0; i < bendToldRad.length; i++) {
      if (read.bendSigmaRad[i]! >= bendToldRad[i]!) continue;
      const j = i * 6;
      const cos = d[j]! * d[j + 3]! + d[j + 1]! * d[j + 4]! + d[j + 2]! * d[j + 5]!;
      bendToldRad[i] = read.bendSigmaRad[i]!;
      bendApartRad[i] = Math.abs(read.bendRad[i]! - Math.acos(Math.min(1, Math.max(-1, cos))));
    }
  }
  const orNothing = (sigma: number): number => (Number.isFinite(sigma) ? sigma : 0);
  return { toldRad: toldRad.map(orNothing), apartRad, bendToldRad: bendToldRad.map(orNothing), bendApartRad };
}

/** Measured depth of a bone in the first camera minus what the figure and the take's gain and offset make of it, metres. */
function depthOff(problem: Problem, { directions, globals }: Figure, t: number, bone: number): number {
  const length = Math.exp(globals[LOG_LENGTH_AT + LENGTH_OF_BONE[bone]!]!);
  const depth = length * directions[(t * BONE_COUNT + bone) * 3 + 2]!;
  return problem.cameras[0]!.depth[t * DEPTH_VECTORS + bone]! - globals[depthGainAt(0, bone)]! * depth - globals[depthOffsetAt(0, bone)]!;
}

/** Angle between the body's forward (hips × spine) and the line to the first camera, 0 facing it. */
function facing(free: Float64Array, f: number): number {
  const h = [0, 1, 2].map((k) => free[f + HIP_AT + k]!);
  const s = [0, 1, 2].map((k) => free[f + SPINE_AT + k]!);
  const forward = [h[1]! * s[2]! - h[2]! * s[1]!, h[2]! * s[0]! - h[0]! * s[2]!, h[0]! * s[1]! - h[1]! * s[0]!];
  const size = Math.hypot(...forward) * Math.hypot(free[f]!, free[f + 1]!, free[f + 2]!) || 1;
  const along = -(forward[0]! * free[f]! + forward[1]! * free[f + 1]! + forward[2]! * free[f + 2]!) / size;
  return Math.acos(Math.min(1, Math.max(-1, along)));
}

/** Time from each frame to the nearest in which somebody was found, seconds; 0 in such a frame. */
function gaps(timesS: Float64Array, found: (t: number) => boolean): Float64Array {
  const out = new Float64Array(timesS.length).fill(Number.POSITIVE_INFINITY);
  let last = Number.NEGATIVE_INFINITY;
  for (let t = 0; t < timesS.length; t++) {
    if (found(t)) last = timesS[t]!;
    out[t] = timesS[t]! - last;
  }
  let next = Number.POSITIVE_INFINITY;
  for (let t = timesS.length - 1; t >= 0; t--) {
    if (found(t)) next = timesS[t]!;
    out[t] = Math.min(out[t]!, next - timesS[t]!);
  }
  return out;
}
