/**
 * What the reader is told of one frame: the pose model's landmarks about the mid-hip, as seen by one half of the body, so that
 * one reader serves left and right (the right half looks into a mirror).
 */
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../../pose/landmarks.ts';
import type { Track } from '../../../pose/track.ts';
import { OPPOSITE_LANDMARK } from '../../bodyAxes.ts';
import { FIGURE_LANDMARKS } from '../layout.ts';

/** Landmarks that are looked at, by the names of the left half. */
export const SIGHT_NAMES: readonly LandmarkName[] = [
  'leftShoulder', 'rightShoulder', 'leftElbow', 'rightElbow', 'leftWrist', 'rightWrist', 'leftPinky', 'leftIndex', 'leftThumb',
  'rightPinky', 'rightIndex', 'rightThumb', 'leftHip', 'rightHip', 'leftKnee', 'rightKnee', 'leftAnkle', 'rightAnkle',
  'nose', 'leftEar', 'rightEar', 'leftHeel', 'leftFootIndex', 'rightHeel', 'rightFootIndex',
];
const READ = SIGHT_NAMES.map((name) => LANDMARK[name]);
/** Of each landmark: its place in the world landmarks (3), the picture's place against it (2), the picture's depth against it, its visibility. */
export const PER_LANDMARK = 7;
/** And which half is looking, where the model is not alike for both: 1 left, -1 right, 0 not told. */
export const SIGHT_SIZE = SIGHT_NAMES.length * PER_LANDMARK + 1;

/** Keeps a frame of hidden landmarks from dividing by nothing. */
const LEAST_WEIGHT = 0.05;

/**
 * Writes what is seen of one frame, in metres of the model's own body.
 *
 * @param mirrored the right half looks: x turned over, left and right exchanged
 * @param tellsHalf whether the reader may know which half is looking
 * @param out [SIGHT_SIZE]
 * @returns pixels that a metre of the model's body covers
 */
export function writeSight(track: Track, t: number, mirrored: boolean, tellsHalf: boolean, out: Float64Array): number {
  const { world, image, visibility, widthPx, heightPx } = track;
  const at = t * LANDMARK_COUNT;
  const flip = mirrored ? -1 : 1;
  const own = (l: number): number => at + (mirrored ? OPPOSITE_LANDMARK[l]! : l);
  const hip = [0, 1, 2].map((k) => (world[(at + LANDMARK.leftHip) * 3 + k]! + world[(at + LANDMARK.rightHip) * 3 + k]!) / 2);
  const seen = (i: number, axis: number): number => (axis === 0 ? flip * (image[i * 3]! - 0.5) * widthPx : (image[i * 3 + 1]! - 0.5) * heightPx);
  const placed = (i: number, axis: number): number => (axis === 0 ? flip : 1) * (world[i * 3 + axis]! - hip[axis]!);
  // The similarity that lays the world landmarks over the picture's.
  let total = 0;
  const sums = [0, 0, 0, 0];
  for (const landmark of FIGURE_LANDMARKS) {
    const i = own(landmark);
    const w = visibility[i]! + LEAST_WEIGHT;
    total += w;
    for (let axis = 0; axis < 2; axis++) {
      sums[axis] = sums[axis]! + w * placed(i, axis);
      sums[2 + axis] = sums[2 + axis]! + w * seen(i, axis);
    }
  }
  let both = 0;
  let square = 0;
  for (const landmark of FIGURE_LANDMARKS) {
    const i = own(landmark);
    const w = visibility[i]! + LEAST_WEIGHT;
    for (let axis = 0; axis < 2; axis++) {
      const from = placed(i, axis) - sums[axis]! / total;
      both += w * from * (seen(i, axis) - sums[2 + axis]! / total);
      square += w * from * from;
    }
  }
  const pxPerM = both / square;
  const shift = [0, 1].map((axis) => sums[2 + axis]! / total - pxPerM * (sums[axis]! / total));
  READ.forEach((landmark, n) => {
    const i = own(landmark);
    const o = n * PER_LANDMARK;
    for (let k = 0; k < 3; k++) out[o + k] = placed(i, k);
    for (let axis = 0; axis < 2; axis++) out[o + 3 + axis] = (seen(i, axis) - shift[axis]!) / pxPerM - out[o + axis]!;
    out[o + 5] = (image[i * 3 + 2]! * widthPx) / pxPerM - out[o + 2]!;
    out[o + 6] = visibility[i]!;
  });
  out[SIGHT_SIZE - 1] = tellsHalf ? flip : 0;
  return pxPerM;
}
