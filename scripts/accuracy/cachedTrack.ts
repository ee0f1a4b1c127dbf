/**
 * Poses a clip, or takes the track of an earlier run: posing takes minutes and nothing in it is left to chance.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { POSE_VERSION } from '../../src/book/poseVersion.ts';
import { poseInBrowser } from '../../src/cli/poseInBrowser.ts';
import { progressLine } from '../../src/cli/progressLine.ts';
import type { ModelSize, Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';

const FOLDER = join(PROJECT_FOLDER, 'generated', 'accuracy');

/** Name under which a track is kept: changes with the clip's bytes, the model and the way poses are measured. */
export function trackPath(clip: string, name: string, model: ModelSize): string {
  const hash = createHash('sha256').update(readFileSync(clip)).update(POSE_VERSION).digest('hex').slice(0, 16);
  return join(FOLDER, `${name}-${model}-${hash}.track.json`);
}

/** Whether {@link cachedTrack} would find the track of an earlier run. */
export const hasTrack = (clip: string, name: string, model: ModelSize): boolean => existsSync(trackPath(clip, name, model));

/**
 * @param clip path of the footage
 * @param name short name, for the file and the progress line
 */
export async function cachedTrack(clip: string, name: string, model: ModelSize): Promise<Track> {
  const path = trackPath(clip, name, model);
  if (existsSync(path)) return trackFromJson(JSON.parse(readFileSync(path, 'utf8')));
  process.stderr.write(`${name}, ${model}\n`);
  const progress = progressLine(process.stderr);
  const posed = await poseInBrowser(clip, model, (line) => process.stderr.write(`${line}\n`), progress.tick).finally(progress.end);
  mkdirSync(FOLDER, { recursive: true });
  // Under another name until it is whole: another run may be reading.
  writeFileSync(`${path}.part`, JSON.stringify(posed.track));
  renameSync(`${path}.part`, path);
  return trackFromJson(posed.track);
}
