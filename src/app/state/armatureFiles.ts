/** Armatures in and out as files of their own. */
import { NudgebookError } from '../../errors.ts';
import type { Armature } from '../../puppet/armature.ts';
import { ARMATURE_TEXT_LIMIT } from '../../puppet/parseArmature.ts';
import { openArmatureText } from './armatureText.ts';
import { chooseFile, download, fileNameOf } from './files.ts';
import { dismissProblem } from './problems.ts';

export const ARMATURE_FILE_ENDING = '.armature.json';
/** UTF-8 has at most four bytes to a character: a larger file need not be read to know that it is none. */
const MOST_BYTES = 4 * ARMATURE_TEXT_LIMIT;

/** @throws NudgebookError `bad-armature` */
export async function openArmatureFile(file: File): Promise<void> {
  dismissProblem();
  if (file.size > MOST_BYTES) {
    throw new NudgebookError(
      'bad-armature',
      `The armature can’t be used: ${file.name} has ${(file.size / 1e6).toFixed(1)} MB, and no armature has more than ${MOST_BYTES / 1e6} MB.`,
      'Choose the armature’s own file; the puppet is as it was.',
    );
  }
  openArmatureText(await file.text());
}

/** Asks for an armature and opens it. */
export async function askForArmature(): Promise<void> {
  const file = await chooseFile('.json,application/json');
  if (file !== null) await openArmatureFile(file);
}

export function saveArmature(armature: Armature): void {
  download(new Blob([JSON.stringify(armature, null, 1), '\n'], { type: 'application/json' }), `${fileNameOf(armature.name)}${ARMATURE_FILE_ENDING}`);
}
