/**
 * The path of the middle of the hips through the stage.
 *
 * The model's metres have their origin between the hips in every frame, so the path must come from elsewhere: from a fit
 * of the whole body, or else height from the feet and the way across from the picture; depth is then not observable.
 */
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';
import { twoSidedSum } from '../numeric/twoSidedMean.ts';
import type { StageTrack } from './bodyAxes.ts';
import type { Bridged } from './gaps.ts';
import { JOINT_LANDMARKS } from './jointLandmarks.ts';
import { STATE_MISSING } from './motion.ts';
import { smoothSeries, type SmoothingPlan } from './smoothing.ts';

/**
 * Reach in time of the mean over the picture's scale, seconds. People walk toward a lens slowly compared with how the
 * scale of single frames trembles. Our choice.
 */
const SCALE_REACH_S = 0.5;

/** Heel and toes of both feet; the ankle always lies above them. */
const SOLES = [LANDMARK.leftHeel, LANDMARK.rightHeel, LANDMARK.leftFootIndex, LANDMARK.rightFootIndex];

/** Landmarks that are compared between picture and metres: those of the body and limbs; the face's are too close together. */
const COMPARED = [...new Set(JOINT_LANDMARKS.flat())].filter((l) => l >= LANDMARK.leftShoulder);

/**
 * The root path `[T·3]` in the stage frame, metres: X = 0 (not observable), Y the height of mid-hip above the lowest sole,
 * Z the way across the picture from the first frame with a pose. NaN in missing frames.
 *
 * Where a fit knows the path, it is the fit's, depth and all. Metres per pixel of a frame: least squares between the landmarks in the picture and in metres, about their means,
 * then averaged over time. The camera is taken as level, and its rays as parallel within one frame.
 *
 * @param bridged with positions already smoothed, and the picture as measured
 */
export function rootPath(
  stage: StageTrack, bridged: Bridged, performerS: Float64Array, smoothing: SmoothingPlan,
): Float64Array {
  const frames = performerS.length;
  const path = new Float64Array(frames * 3).fill(Number.NaN);
  if (stage.rootM !== null) return fittedPath(stage.rootM, bridged, smoothing);
  const { widthPx, heightPx } = stage;
  const acrossPx = new Float64Array(frames);
  // sums of the fit: metres·pixels and pixels·pixels, to be averaged together
  const fit = new Float64Array(frames * 2);
  for (const { from, to } of bridged.stretches) {
    for (let t = from; t <= to; t++) {
      const frame = t * LANDMARK_COUNT * 2;
      const hips = (bridged.image[frame + LANDMARK.leftHip * 2]! + bridged.image[frame + LANDMARK.rightHip * 2]!) / 2;
      acrossPx[t] = (hips - 0.5) * widthPx;
      addScaleSums(t, bridged, widthPx, heightPx, fit);
    }
    twoSidedSum(performerS, fit, 2, from, to, SCALE_REACH_S);
  }
  smoothSeries(smoothing, acrossPx, 1, 0, 1);
  let start = Number.NaN;
  for (const { from, to } of bridged.stretches) {
    for (let t = from; t <= to; t++) {
      const metresPerPx = fit[t * 2 + 1]! > 0 ? fit[t * 2]! / fit[t * 2 + 1]! : 0;
      const z = -acrossPx[t]! * metresPerPx;
      if (Number.isNaN(start)) start = z;
      path[t * 3] = 0;
      path[t * 3 + 1] = heightAboveSoles(bridged.positionM, t);
      path[t * 3 + 2] = z - start;
    }
  }
  return path;
}

/** The path of a fitted body, smoothed like everything else, and only where there is a pose. */
function fittedPath(rootM: Float64Array, bridged: Bridged, smoothing: SmoothingPlan): Float64Array {
  const path = rootM.slice();
  smoothSeries(smoothing, path, 3, 0, 3);
  bridged.frameState.forEach((state, t) => {
    if (state === STATE_MISSING) path.fill(Number.NaN, t * 3, t * 3 + 3);
  });
  return path;
}

function heightAboveSoles(positionM: Float64Array, t: number): number {
  const frame = t * LANDMARK_COUNT * 3 + 1;
  let lowest = Number.POSITIVE_INFINITY;
  for (const l of SOLES) lowest = Math.min(lowest, positionM[frame + l * 3]!);
  return (positionM[frame + LANDMARK.leftHip * 3]! + positionM[frame + LANDMARK.rightHip * 3]!) / 2 - lowest;
}

/**
 * Σ metres·pixels and Σ pixels² about the means, over across and up, of the landmarks compared: added to `to[2·t]` and
 * `to[2·t + 1]`.
 */
function addScaleSums(t: number, bridged: Bridged, widthPx: number, heightPx: number, to: Float64Array): void {
  const { positionM, image } = bridged;
  for (let c = 0; c < 2; c++) {
    // stage Z runs against picture x, stage Y against picture y
    const metreAxis = c === 0 ? 2 : 1;
    const sizePx = c === 0 ? widthPx : heightPx;
    let sumM = 0;
    let sumP = 0;
    let sumMP = 0;
    let sumPP = 0;
    for (let i = 0; i < COMPARED.length; i++) {
      const at = t * LANDMARK_COUNT + COMPARED[i]!;
      const m = -positionM[at * 3 + metreAxis]!;
      const p = image[at * 2 + c]! * sizePx;
      sumM += m;
      sumP += p;
      sumMP += m * p;
      sumPP += p * p;
    }
    to[t * 2]! += sumMP - (sumM * sumP) / COMPARED.length;
    to[t * 2 + 1]! += sumPP - (sumP * sumP) / COMPARED.length;
  }
}
