/** A take seen in a mirror. */
import { LANDMARK, LANDMARK_COUNT, LANDMARK_NAMES } from '../../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../../src/pose/track.ts';

/** The landmark that each becomes in a mirror. */
export const PARTNER = LANDMARK_NAMES.map((name) => {
  const other = name.startsWith('left') ? name.replace('left', 'right') : name.startsWith('right') ? name.replace('right', 'left')
    : name === 'mouthLeft' ? 'mouthRight' : name === 'mouthRight' ? 'mouthLeft' : name;
  return LANDMARK[other as keyof typeof LANDMARK];
});

/** The track of the mirrored picture, left and right exchanged. */
export function mirrored(track: Track): Track {
  const out = emptyTrack(track.model, track.widthPx, track.heightPx, track.timesS);
  for (let t = 0; t < track.timesS.length; t++) {
    out.found[t] = track.found[t]!;
    for (let l = 0; l < LANDMARK_COUNT; l++) {
      const i = t * LANDMARK_COUNT + l;
      const j = t * LANDMARK_COUNT + PARTNER[l]!;
      out.image.set([1 - track.image[j * 3]!, track.image[j * 3 + 1]!, track.image[j * 3 + 2]!], i * 3);
      out.world.set([-track.world[j * 3]!, track.world[j * 3 + 1]!, track.world[j * 3 + 2]!], i * 3);
      out.visibility[i] = track.visibility[j]!;
    }
  }
  return out;
}
