/**
 * One frame's landmarks as one block of numbers, the form in which they cross from worker to page.
 */
import { LANDMARK_COUNT } from './landmarks.ts';
import type { Track } from './track.ts';

/** Image 33·3, then world 33·3, then visibility 33. */
export const POSE_VALUES = LANDMARK_COUNT * 7;

/** A landmark as the engine gives it. */
export interface EngineLandmark {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly visibility?: number;
}

/**
 * Packs one person. The engine's own axes are those of {@link Track} already.
 *
 * @param image 33 landmarks in fractions of the frame
 * @param world the same 33 in metres
 * @returns 231 numbers: x, y, z of each image landmark, the same of each world landmark, each visibility
 */
export function packPose(image: readonly EngineLandmark[], world: readonly EngineLandmark[]): Float32Array {
  const values = new Float32Array(POSE_VALUES);
  for (let i = 0; i < LANDMARK_COUNT; i++) {
    const seen = image[i];
    const placed = world[i];
    if (!seen || !placed) throw new Error(`the engine gave ${image.length} landmarks instead of ${LANDMARK_COUNT}`);
    values.set([seen.x, seen.y, seen.z], i * 3);
    values.set([placed.x, placed.y, placed.z], (LANDMARK_COUNT + i) * 3);
    values[LANDMARK_COUNT * 6 + i] = seen.visibility ?? 0;
  }
  return values;
}

/** Writes one packed person into its frame of a track. */
export function writePose(track: Track, frame: number, values: Float32Array): void {
  const n = LANDMARK_COUNT;
  track.image.set(values.subarray(0, n * 3), frame * n * 3);
  track.world.set(values.subarray(n * 3, n * 6), frame * n * 3);
  track.visibility.set(values.subarray(n * 6, n * 7), frame * n);
  track.found[frame] = 1;
}
