/**
 * Poses every clip that is there and has no track yet, and keeps the tracks where `npm run accuracy` looks for them.
 */
import type { ModelSize } from '../../src/pose/track.ts';
import { poseMissing } from './cachedTrack.ts';
import { clipFiles } from './clipFiles.ts';

export async function poseClips(models: readonly ModelSize[]): Promise<void> {
  for (const model of models) await poseMissing(clipFiles().there, model);
}
