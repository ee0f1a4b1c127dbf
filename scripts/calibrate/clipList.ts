/**
 * The clips with a known truth, and the half each belongs to: by the tuning half the error model is made, by the reporting half it is
 * only told how well it does.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { CLIPS } from '../clips/clips.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';

export interface TrueClip {
  readonly name: string;
  readonly half: 'tuning' | 'reporting';
  readonly clipPath: string;
  readonly truthPath: string;
}

const FOLDERS = [join(PROJECT_FOLDER, 'reference-clips'), join(PROJECT_FOLDER, 'generated', 'clips')];

/** Those of the list that have been rendered; the others are named in `missing`. */
export function trueClips(): { readonly clips: readonly TrueClip[]; readonly missing: readonly string[] } {
  const clips: TrueClip[] = [];
  const missing: string[] = [];
  for (const clip of CLIPS) {
    const folder = FOLDERS.find((one) => existsSync(join(one, `${clip.name}.webm`)) && existsSync(join(one, `${clip.name}.truth.json`)));
    if (folder === undefined) missing.push(clip.name);
    else clips.push({ name: clip.name, half: ('set' in clip ? clip.set : 'tuning') as TrueClip['half'], clipPath: join(folder, `${clip.name}.webm`), truthPath: join(folder, `${clip.name}.truth.json`) });
  }
  return { clips, missing };
}
