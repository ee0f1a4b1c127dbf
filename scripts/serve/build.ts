/**
 * Builds the app into dist/: first what is served as it is (wasm, models, clips), then the bundle.
 */
import { existsSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import { prepareAssets } from '../assets/prepare.ts';
import { PROJECT_FOLDER } from './projectFolder.ts';

const STAMP = join(PROJECT_FOLDER, 'dist', 'built.txt');
const INPUTS = ['src', 'scripts', 'reference-clips', 'index.html', 'lab.html', 'vite.config.ts', 'package-lock.json'];

function newestMs(path: string): number {
  const facts = statSync(path);
  if (!facts.isDirectory()) return facts.mtimeMs;
  let newest = facts.mtimeMs;
  for (const name of readdirSync(path)) newest = Math.max(newest, newestMs(join(path, name)));
  return newest;
}

/** True where dist/ is there and nothing it is made of is newer. */
function isUpToDate(): boolean {
  if (!existsSync(STAMP)) return false;
  const builtMs = statSync(STAMP).mtimeMs;
  return INPUTS.every((name) => newestMs(join(PROJECT_FOLDER, name)) <= builtMs);
}

/**
 * Builds dist/ unless it is up to date.
 *
 * @param say called with one line for a person when a build starts
 */
export async function buildApp(say: (line: string) => void): Promise<void> {
  if (isUpToDate()) return;
  say('Building the app …');
  // Taken before the build, so that a file saved while it runs is not missed next time.
  const started = new Date();
  await prepareAssets(PROJECT_FOLDER);
  await build({ root: PROJECT_FOLDER, configFile: join(PROJECT_FOLDER, 'vite.config.ts'), logLevel: 'warn' });
  writeFileSync(STAMP, 'Made by `npm start`. Safe to delete.\n');
  utimesSync(STAMP, started, started);
}
