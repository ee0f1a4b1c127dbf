/**
 * Writes the results so that a folder never holds half of an old plan and half of a new one.
 */
import { mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { NudgebookError } from '../errors.ts';

/**
 * Makes the folder where the results go, before any long work starts.
 *
 * @throws NudgebookError `bad-argument` where it can't be made or is a file
 */
export function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
    if (statSync(path).isDirectory()) return;
  } catch (cause) {
    throw new NudgebookError('bad-argument', `The folder ${path} can't be made.`, 'Give --out a folder you may write to.', cause);
  }
  throw new NudgebookError('bad-argument', `${path} is a file, not a folder.`, 'Give --out a folder you may write to.');
}

/**
 * Writes every file under a passing name first and renames them only when all are complete.
 *
 * @param folder an existing folder
 * @param files text by file name
 * @throws NudgebookError `bad-argument` where the disk refuses; nothing of the former results is touched then
 */
export function writeAll(folder: string, files: Readonly<Record<string, string>>): void {
  const passing = (name: string): string => join(folder, `.${name}.part`);
  try {
    for (const [name, text] of Object.entries(files)) writeFileSync(passing(name), text);
  } catch (cause) {
    for (const name of Object.keys(files)) rmSync(passing(name), { force: true });
    throw new NudgebookError('bad-argument', `The results can't be written to ${folder}.`, 'Check free space and permissions.', cause);
  }
  for (const name of Object.keys(files)) renameSync(passing(name), join(folder, name));
}
