/**
 * Poses every clip that is there and has no track yet, and keeps the tracks where `npm run accuracy` looks for them.
 */
import type { ModelSize } from '../../src/pose/track.ts';
import { cachedTrack, hasTrack } from './cachedTrack.ts';
import { clipFiles } from './clipFiles.ts';

export async function poseClips(models: readonly ModelSize[]): Promise<void> {
  const { there } = clipFiles();
  for (const { clip, name } of there) {
    for (const model of models) if (!hasTrack(clip, name, model)) await cachedTrack(clip, name, model);
  }
}
