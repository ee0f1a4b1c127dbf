/**
 * `tsx scripts/accuracy/poseClips.ts [lite] [full] [heavy]`: poses every clip that is there and has no track yet, and keeps the tracks
 * where `npm run accuracy` looks for them. Without words: all three models, full and heavy first.
 */
import process from 'node:process';
import { MODEL_SIZES, type ModelSize } from '../../src/pose/track.ts';
import { cachedTrack, hasTrack } from './cachedTrack.ts';
import { clipFiles, missingWord } from './clipFiles.ts';

const asked = process.argv.slice(2).map((word) => {
  const model = MODEL_SIZES.find((size) => size === word);
  if (model === undefined) throw new Error(`"${word}" is no model; there are: ${MODEL_SIZES.join(', ')}.`);
  return model;
});
const models: readonly ModelSize[] = asked.length > 0 ? asked : ['full', 'heavy', 'lite'];

const { there, missing } = clipFiles();
for (const model of models) {
  for (const { clip, name } of there) {
    if (!hasTrack(clip, name, model)) await cachedTrack(clip, name, model);
  }
}
console.log(missingWord(missing) ?? 'All clips are there.');
