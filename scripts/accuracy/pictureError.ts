/**
 * How far the model's landmarks lie from the true joint centres in the picture, before anything is smoothed.
 */
import { percentile } from '../bench/percentile.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import type { Track } from '../../src/pose/track.ts';
import { placeTruth, projectPx } from './truthBody.ts';
import type { Truth } from './truthFile.ts';

/** The landmarks that stand for joint centres; truth and model use the same names for these. */
export const COMPARED: readonly LandmarkName[] = (['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const)
  .flatMap((joint) => [`left${joint}`, `right${joint}`] as const);

export interface PictureError {
  readonly meanPx: number;
  readonly p95Px: number;
  readonly worstPx: number;
  /** The mean as a share of the true height from the higher ankle to the head joint in the first frame. */
  readonly meanOfHeight: number;
  readonly n: number;
}

/** @returns `undefined` where no frame was posed */
export function pictureError(truth: Truth, track: Track): PictureError | undefined {
  const errors: number[] = [];
  for (let frame = 0; frame < truth.frames; frame += 1) {
    if (track.found[frame] !== 1) continue;
    const body = placeTruth(truth, frame);
    for (const name of COMPARED) {
      const [x, y] = projectPx(truth, body(name).position);
      const at = (frame * LANDMARK_COUNT + LANDMARK[name]) * 3;
      errors.push(Math.hypot(track.image[at]! * track.widthPx - x, track.image[at + 1]! * track.heightPx - y));
    }
  }
  if (errors.length === 0) return undefined;
  const first = placeTruth(truth, 0);
  const rowOf = (joint: string): number => projectPx(truth, first(joint).position)[1];
  const heightPx = Math.min(rowOf('leftAnkle'), rowOf('rightAnkle')) - rowOf('head');
  const meanPx = errors.reduce((sum, e) => sum + e, 0) / errors.length;
  return { meanPx, p95Px: percentile(errors, 0.95), worstPx: Math.max(...errors), meanOfHeight: meanPx / heightPx, n: errors.length };
}
