/**
 * A small track with numbers that are all different, and one frame without a person.
 */
import { LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

export function testTrack(): Track {
  const track = emptyTrack('full', 720, 1280, Float64Array.of(0, 1001 / 30000, 0.067, 1.5));
  const n = LANDMARK_COUNT;
  for (const frame of [0, 2, 3]) {
    track.found[frame] = 1;
    for (let i = 0; i < n * 3; i++) {
      track.image[frame * n * 3 + i] = 0.1 + (frame * n * 3 + i) * 0.0012345;
      track.world[frame * n * 3 + i] = -0.8 + (frame * n * 3 + i) * 0.0023456;
    }
    for (let i = 0; i < n; i++) track.visibility[frame * n + i] = (frame * n + i) / 200;
  }
  return track;
}
