/** The reader of each size of the pose model. */
import type { ModelSize, Track } from '../../../pose/track.ts';
import type { Ensemble } from './ensemble.ts';
import { unpack } from './packed.ts';
import { readTrack, type Readings } from './readTrack.ts';
import { TAUGHT } from './taught.ts';

/** The heavy model is not alike for left and right, so its reader is told which half is looking. */
export const tellsHalf = (model: ModelSize): boolean => model === 'heavy';

const unpacked = new Map<ModelSize, readonly Ensemble[]>();

/** What the reader makes of a track; `null` where none was taught for its model. */
export function readingsOf(track: Track): Readings | null {
  const packed = TAUGHT[track.model];
  if (packed === null) return null;
  let nets = unpacked.get(track.model);
  if (nets === undefined) {
    nets = packed.map((group) => group.map(unpack));
    unpacked.set(track.model, nets);
  }
  return readTrack(track, nets, tellsHalf(track.model));
}
