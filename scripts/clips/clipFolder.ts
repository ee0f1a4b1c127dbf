// Where clips are kept on this disk.
import { join } from 'node:path';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import type { Clip } from './clip.ts';

/** Kept with the project, or made on demand and ignored by git. */
export const clipFolder = (clip: Pick<Clip, 'committed'>): string =>
  clip.committed ? join(PROJECT_FOLDER, 'reference-clips') : join(PROJECT_FOLDER, 'generated', 'clips');
