/** From a track to what the residuals compare with: joints in pixels, depth differences, raw elbow angles. */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import { believed } from './believed.ts';
import { IMAGE_SIGMA_M, IMAGE_STEP_SIGMA_M } from './constants.ts';
import {
  BONE_COUNT, BONE_END, BONE_START, DEPTH_VECTORS, FIGURE_LANDMARKS, POINT, POINT_COUNT,
} from './layout.ts';
import type { Observations } from './problem.ts';
import { averageReadings, emptyReadings } from './reader/average.ts';
import type { View } from './view.ts';

/**
 * What one camera measured, averaged about each knot.
 *
 * @param view the camera and its track of T frames
 * @param knots [K] frame index of each knot, rising
 * @param reach frames before and after a knot that are averaged into it, with weights falling linearly to 0 at reach + 1;
 *   0 takes the frame alone
 * @param metresPerPx metres that a pixel covers at the performer's distance, to say the landmarks' error in pixels
 */
export function observe(view: View, knots: Int32Array, reach: number, metresPerPx: number): Observations {
  const { track } = view;
  const count = knots.length;
  const image = new Float64Array(count * POINT_COUNT * 2);
  const weight = new Float64Array(count * POINT_COUNT);
  const seen = new Float64Array(count * POINT_COUNT);
  const depth = new Float64Array(count * DEPTH_VECTORS).fill(Number.NaN);
  const depthWeight = new Float64Array(count * DEPTH_VECTORS);
  const elbowRad = new Float64Array(count * 2).fill(Number.NaN);
  const mean = new Float64Array(LANDMARK_COUNT * 3);
  const { readings } = view;
  const read = readings === null ? null : emptyReadings(count);
  for (let k = 0; k < count; k++) {
    const middle = knots[k]!;
    if (track.found[middle] !== 1) continue;
    let total = 0;
    mean.fill(0);
    const sums = new Float64Array(POINT_COUNT * 3);
    // Even about the knot: a one-sided mean would shift the move in time.
    let even = 0;
    while (even < reach && track.found[middle - even - 1] === 1 && track.found[middle + even + 1] === 1) even++;
    for (let o = -even; o <= even; o++) {
      const t = middle + o;
      const w = 1 - Math.abs(o) / (reach + 1);
      total += w;
      for (let i = 0; i < LANDMARK_COUNT * 3; i++) mean[i] = mean[i]! + w * track.world[t * LANDMARK_COUNT * 3 + i]!;
      for (let p = 0; p < POINT_COUNT; p++) {
        const l = t * LANDMARK_COUNT + FIGURE_LANDMARKS[p]!;
        sums[p * 3] = sums[p * 3]! + w * (track.image[l * 3]! - 0.5) * track.widthPx;
        sums[p * 3 + 1] = sums[p * 3 + 1]! + w * (track.image[l * 3 + 1]! - 0.5) * track.heightPx;
        sums[p * 3 + 2] = sums[p * 3 + 2]! + w * track.visibility[l]!;
      }
    }
    for (let i = 0; i < mean.length; i++) mean[i] = mean[i]! / total;
    const mine = readings === null ? null : averageReadings(readings, middle, even, reach);
    for (let p = 0; p < POINT_COUNT; p++) {
      image[(k * POINT_COUNT + p) * 2] = sums[p * 3]! / total;
      image[(k * POINT_COUNT + p) * 2 + 1] = sums[p * 3 + 1]! / total;
      seen[k * POINT_COUNT + p] = believed(sums[p * 3 + 2]! / total);
      weight[k * POINT_COUNT + p] = seen[k * POINT_COUNT + p]! * (mine === null ? 1 : Math.min(MOST_SURE, (IMAGE_SIGMA_M / mine.shiftSigmaM[p]!) ** 2));
    }
    writeDepthWeights(weight, k * POINT_COUNT, depthWeight, k * DEPTH_VECTORS);
    writeDepths(mean, depth, k * DEPTH_VECTORS);
    if (read !== null && mine !== null) {
      for (const name of READ_NAMES) read[name].set(mine[name], k * mine[name].length);
    }
    elbowRad[k * 2] = flexion(mean, LANDMARK.leftShoulder, LANDMARK.leftElbow, LANDMARK.leftWrist);
    elbowRad[k * 2 + 1] = flexion(mean, LANDMARK.rightShoulder, LANDMARK.rightElbow, LANDMARK.rightWrist);
  }
  return {
    focalPx: view.focalPx, rotation: view.rotation, translation: view.translationM,
    sigmaPx: IMAGE_SIGMA_M / metresPerPx, stepSigmaPx: IMAGE_STEP_SIGMA_M / metresPerPx,
    image, weight, seen, depth, depthSigmaM: new Float64Array(depth.length), depthWeight, read, elbowRad,
  };
}

const READ_NAMES = ['lean', 'leanSigma', 'bendRad', 'bendSigmaRad'] as const;

/** Landmarks that have been read count this much at most, and less where the reader finds them doubtful (tuned). */
const MOST_SURE = 0.8;

/** A vector's depth is seen as well as the worse of its ends. */
function writeDepthWeights(weight: Float64Array, from: number, out: Float64Array, at: number): void {
  const w = (point: number): number => weight[from + point]!;
  for (let b = 0; b < BONE_COUNT; b++) out[at + b] = Math.min(w(BONE_START[b]!), w(BONE_END[b]!));
  const hips = Math.min(w(POINT.leftHip), w(POINT.rightHip));
  const shoulders = Math.min(w(POINT.leftShoulder), w(POINT.rightShoulder));
  out.set([hips, Math.min(hips, shoulders), shoulders], at + BONE_COUNT);
}

function writeDepths(world: Float64Array, out: Float64Array, at: number): void {
  const z = (landmark: number): number => world[landmark * 3 + 2]!;
  for (let b = 0; b < BONE_COUNT; b++) {
    out[at + b] = z(FIGURE_LANDMARKS[BONE_END[b]!]!) - z(FIGURE_LANDMARKS[BONE_START[b]!]!);
  }
  const hips = [z(LANDMARK.leftHip), z(LANDMARK.rightHip)] as const;
  const shoulders = [z(LANDMARK.leftShoulder), z(LANDMARK.rightShoulder)] as const;
  out[at + BONE_COUNT] = (hips[0] - hips[1]) / 2;
  out[at + BONE_COUNT + 1] = (shoulders[0] + shoulders[1] - hips[0] - hips[1]) / 2;
  out[at + BONE_COUNT + 2] = (shoulders[0] - shoulders[1]) / 2;
}

/** Angle between the two bones about `middle`, 0 when straight. */
function flexion(world: Float64Array, start: number, middle: number, end: number): number {
  const v = [0, 1, 2].map((k) => world[middle * 3 + k]! - world[start * 3 + k]!);
  const w = [0, 1, 2].map((k) => world[end * 3 + k]! - world[middle * 3 + k]!);
  const dot = v[0]! * w[0]! + v[1]! * w[1]! + v[2]! * w[2]!;
  const cross = Math.hypot(v[1]! * w[2]! - v[2]! * w[1]!, v[2]! * w[0]! - v[0]! * w[2]!, v[0]! * w[1]! - v[1]! * w[0]!);
  return Math.atan2(cross, dot);
}
