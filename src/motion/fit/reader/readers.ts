/** The reader of each size of the pose model. */
import type { ModelSize, Track } from '../../../pose/track.ts';
import type { Network } from './network.ts';
import { unpack, type Packed } from './packed.ts';
import { readTrack, type Readings } from './readTrack.ts';
import { TAUGHT } from './taught.ts';

/** The heavy model is not alike for left and right, so its reader is told which half is looking. */
export const tellsHalf = (model: ModelSize): boolean => model === 'heavy';

const unpacked = new Map<ModelSize, readonly Network[]>();

/** What the reader makes of a track; `null` where none was taught for its model. */
export function readingsOf(track: Track): Readings | null {
  const packed: readonly Packed[] | null = TAUGHT[track.model];
  if (packed === null) return null;
  let nets = unpacked.get(track.model);
  if (nets === undefined) {
    nets = packed.map(unpack);
    unpacked.set(track.model, nets);
  }
  return readTrack(track, nets, tellsHalf(track.model));
}
