/**
 * Poses clips, or takes the tracks of an earlier run: posing takes minutes and nothing in it is left to chance.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { POSE_VERSION } from '../../src/book/poseVersion.ts';
import { openPosing } from '../../src/cli/poseInBrowser.ts';
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

export interface ToPose {
  /** Path of the footage. */
  readonly clip: string;
  /** Short name, for the file and the progress line. */
  readonly name: string;
}

/** Poses those clips that have no track yet, one after the other in one browser. */
export async function poseMissing(clips: readonly ToPose[], model: ModelSize): Promise<void> {
  const missing = clips.filter(({ clip, name }) => !hasTrack(clip, name, model));
  if (missing.length === 0) return;
  const posing = await openPosing((line) => process.stderr.write(`${line}\n`));
  try {
    mkdirSync(FOLDER, { recursive: true });
    for (const { clip, name } of missing) {
      process.stderr.write(`${name}, ${model}\n`);
      const progress = progressLine(process.stderr);
      const { track } = await posing.pose(clip, model, progress.tick).finally(progress.end);
      const path = trackPath(clip, name, model);
      // Under another name until it is whole: another run may be reading.
      writeFileSync(`${path}.part`, JSON.stringify(track));
      renameSync(`${path}.part`, path);
    }
  } finally {
    await posing.close();
  }
}

/** The track of a clip, posed now where it has not been. */
export async function cachedTrack(clip: string, name: string, model: ModelSize): Promise<Track> {
  await poseMissing([{ clip, name }], model);
  return trackFromJson(JSON.parse(readFileSync(trackPath(clip, name, model), 'utf8')));
}
