/**
 * The folder of the project, so that every command works from wherever it is called.
 */
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROJECT_FOLDER = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
