/**
 * The track: what the pose model measured in each frame of a take, exactly as measured.
 *
 * Nothing here is smoothed, bridged or turned. The one door into body axes is `motion/bodyAxes.ts`.
 */
import { LANDMARK_COUNT } from './landmarks.ts';

export const MODEL_SIZES = ['lite', 'full', 'heavy'] as const;
export type ModelSize = (typeof MODEL_SIZES)[number];

/**
 * T frames of 33 landmarks.
 *
 * - `timesS[T]` presentation timestamps of the container, seconds, strictly rising.
 * - `image[T·33·3]` x and y as fractions of the upright frame's width and height (0..1, y down; may lie
 *   outside when the model guesses beyond the edge); z on the scale of x, about the hips, away from the camera.
 * - `world[T·33·3]` metres, origin mid-hip, camera axes: x to the right of the picture, y down, z away from the camera.
 * - `visibility[T·33]` 0..1, the model's belief that the landmark is in the frame and not covered.
 * - `found[T]` 1 where a person was found; where 0, that frame's numbers are NaN and visibility is 0.
 */
export interface Track {
  readonly model: ModelSize;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly timesS: Float64Array;
  readonly image: Float32Array;
  readonly world: Float32Array;
  readonly visibility: Float32Array;
  readonly found: Uint8Array;
}

/** Number of frames T of a track. */
export function frameCount(track: Track): number {
  return track.timesS.length;
}

/** Number of frames in which a person was found. */
export function foundCount(track: Track): number {
  let n = 0;
  for (const f of track.found) n += f;
  return n;
}

/**
 * An empty track for T frames at the given times: nobody found anywhere, numbers NaN, ready to be filled in any order.
 *
 * @param timesS T presentation timestamps in seconds
 */
export function emptyTrack(model: ModelSize, widthPx: number, heightPx: number, timesS: Float64Array): Track {
  const n = timesS.length * LANDMARK_COUNT;
  return {
    model,
    widthPx,
    heightPx,
    timesS,
    image: new Float32Array(n * 3).fill(Number.NaN),
    world: new Float32Array(n * 3).fill(Number.NaN),
    visibility: new Float32Array(n),
    found: new Uint8Array(timesS.length),
  };
}
