/**
 * The one door from the model's camera axes into the stage's axes; behind it nobody thinks of the camera again.
 *
 * Camera: x to the right of the picture, y down, z away from the camera. Stage (ISB order): X toward the camera, Y up,
 * Z to the left of the picture, which is the right-hand side of a performer who faces the lens. X = -z, Y = -y, Z = -x:
 * two reflections and a swap, i.e. a proper rotation (determinant +1), so that turns keep their sense.
 * Mirroring a take happens here too.
 */
import { LANDMARK, LANDMARK_COUNT, LANDMARK_NAMES, type LandmarkName } from '../pose/landmarks.ts';
import type { Track } from '../pose/track.ts';
import type { FittedBody } from './fit/fittedBody.ts';

/**
 * The landmarks of a take in the stage's axes, T frames of 33.
 *
 * - `timesS[T]` the container's time.
 * - `positionM[T·33·3]` metres, stage axes, origin mid-hip.
 * - `image[T·33·2]` x, y as fractions of the upright frame, as in the track (mirrored: x → 1 - x).
 * - `visibility[T·33]`, `found[T]` as in the track.
 * - `rootM[T·3]` path of the mid-hip over the floor where a fit knows it, else `null`.
 */
export interface StageTrack {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly timesS: Float64Array;
  readonly positionM: Float64Array;
  readonly image: Float64Array;
  readonly visibility: Float32Array;
  readonly found: Uint8Array;
  readonly rootM: Float64Array | null;
}

/** For each landmark the index of the one on the other side of the body (itself on the midline). */
export const OPPOSITE_LANDMARK: readonly number[] = LANDMARK_NAMES.map((name) => {
  const other = name.includes('left') || name.includes('Left')
    ? name.replace('left', 'right').replace('Left', 'Right')
    : name.replace('right', 'left').replace('Right', 'Left');
  return LANDMARK[other as LandmarkName];
});

/**
 * A track in the stage's axes.
 *
 * @param mirror show the performer as in a mirror: left becomes right and the picture is turned over
 * @param body the figure fitted to this track, whose points then stand in place of the model's own; else `null`
 */
export function toStage(track: Track, mirror: boolean, body: FittedBody | null): StageTrack {
  const landmarks = track.timesS.length * LANDMARK_COUNT;
  const image = new Float64Array(landmarks * 2);
  for (let k = 0; k < landmarks; k++) {
    image[k * 2] = track.image[k * 3]!;
    image[k * 2 + 1] = track.image[k * 3 + 1]!;
  }
  const { widthPx, heightPx, timesS, visibility, found } = track;
  const stage: StageTrack = {
    widthPx, heightPx, timesS, image, visibility, found,
    positionM: body === null ? measuredPositions(track) : body.pointsM.slice(),
    rootM: body === null ? null : body.rootM.slice(),
  };
  return mirror ? mirrorStage(stage) : stage;
}

/** The model's own metres, turned. */
function measuredPositions(track: Track): Float64Array {
  const positionM = new Float64Array(track.world.length);
  for (let k = 0; k < positionM.length; k += 3) {
    positionM[k] = -track.world[k + 2]!;
    positionM[k + 1] = -track.world[k + 1]!;
    positionM[k + 2] = -track.world[k]!;
  }
  return positionM;
}

/** The same performance seen in a mirror: sides swapped, Z reflected, picture turned over. Twice gives the original. */
export function mirrorStage(stage: StageTrack): StageTrack {
  const frames = stage.timesS.length;
  const positionM = new Float64Array(stage.positionM.length);
  const image = new Float64Array(stage.image.length);
  const visibility = new Float32Array(stage.visibility.length);
  for (let t = 0; t < frames; t++) {
    for (let l = 0; l < LANDMARK_COUNT; l++) {
      const to = t * LANDMARK_COUNT + l;
      const from = t * LANDMARK_COUNT + OPPOSITE_LANDMARK[l]!;
      positionM[to * 3] = stage.positionM[from * 3]!;
      positionM[to * 3 + 1] = stage.positionM[from * 3 + 1]!;
      positionM[to * 3 + 2] = -stage.positionM[from * 3 + 2]!;
      image[to * 2] = 1 - stage.image[from * 2]!;
      image[to * 2 + 1] = stage.image[from * 2 + 1]!;
      visibility[to] = stage.visibility[from]!;
    }
  }
  const rootM = stage.rootM?.map((value, i) => (i % 3 === 2 ? -value : value)) ?? null;
  return { ...stage, positionM, image, visibility, rootM };
}
