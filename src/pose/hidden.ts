/**
 * Which landmarks were really seen, and which the model only guessed.
 *
 * The model always gives 33 positions, also of joints behind the body or outside the picture. Its visibility, 0..1, is
 * its own belief that a landmark is there to be seen. Where to cut is our choice: 0.5, the point at which the model
 * itself thinks one as likely as the other.
 */
import { LANDMARK_COUNT } from './landmarks.ts';
import { frameCount, type Track } from './track.ts';

export const SEEN_FROM_VISIBILITY = 0.5;

/** `nobody`: no person in the frame. `outside`: beyond the picture's edge. `covered`: inside it, but not to be seen. */
export type Sight = 'seen' | 'covered' | 'outside' | 'nobody';

/**
 * How a landmark was seen in a frame. Outside goes before covered: it is the fault that the performer can mend.
 */
export function sightOf(track: Track, frame: number, landmark: number): Sight {
  if (track.found[frame] !== 1) return 'nobody';
  const at = frame * LANDMARK_COUNT + landmark;
  const x = track.image[at * 3] ?? Number.NaN;
  const y = track.image[at * 3 + 1] ?? Number.NaN;
  if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) return 'outside';
  return (track.visibility[at] ?? 0) >= SEEN_FROM_VISIBILITY ? 'seen' : 'covered';
}

/**
 * 1 for every landmark that was not seen.
 *
 * @returns hidden[T·33]
 */
export function hiddenLandmarks(track: Track): Uint8Array {
  const hidden = new Uint8Array(frameCount(track) * LANDMARK_COUNT);
  for (let i = 0; i < hidden.length; i++) {
    hidden[i] = sightOf(track, Math.floor(i / LANDMARK_COUNT), i % LANDMARK_COUNT) === 'seen' ? 0 : 1;
  }
  return hidden;
}
