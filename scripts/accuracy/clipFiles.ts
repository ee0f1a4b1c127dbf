/**
 * Which clips with truth there are on this disk, and which would have to be made.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { ClipSet } from '../clips/clip.ts';
import { clipFolder } from '../clips/clipFolder.ts';
import { CLIPS } from '../clips/clips.ts';

export interface ClipFile {
  readonly name: string;
  readonly set: ClipSet;
  readonly clip: string;
  readonly truth: string;
}

/** @returns the clips of the list that are there with their truth, in the list's order, and the names of those that are not */
export function clipFiles(): { readonly there: readonly ClipFile[]; readonly missing: readonly string[] } {
  const all = CLIPS.map((clip): ClipFile => {
    const at = (end: string): string => join(clipFolder(clip), `${clip.name}${end}`);
    return { name: clip.name, set: clip.set, clip: at('.webm'), truth: at('.truth.json') };
  });
  const isThere = (file: ClipFile): boolean => existsSync(file.clip) && existsSync(file.truth);
  return { there: all.filter(isThere), missing: all.filter((file) => !isThere(file)).map(({ name }) => name) };
}

/** One sentence on missing clips, or `undefined`. */
export function missingWord(missing: readonly string[]): string | undefined {
  if (missing.length === 0) return undefined;
  return `${missing.length} clips are not there and are left out: ${missing.join(', ')}. npm run clips -- --set all --missing makes them.`;
}
