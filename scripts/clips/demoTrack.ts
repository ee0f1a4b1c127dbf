/**
 * `npm run demo-track`: poses the demo's clip and keeps the track beside the app, so that a newcomer sees a whole plan
 * before any model has been loaded. Run it again whenever the clip or the way poses are measured has changed; a test
 * compares the clip's content hash with the one kept here.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { poseInBrowser } from '../../src/cli/poseInBrowser.ts';
import { progressLine } from '../../src/cli/progressLine.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';

const NAME = 'one-leg-reach';
const PATH = join(PROJECT_FOLDER, 'src', 'app', 'demo', `${NAME}.track.json`);

const progress = progressLine(process.stderr);
const { facts, track } = await poseInBrowser(
  join(PROJECT_FOLDER, 'reference-clips', `${NAME}.webm`), 'full', (line) => console.log(line), progress.tick,
).finally(progress.end);
writeFileSync(PATH, `${JSON.stringify({ clipHash: facts.hash, track })}\n`);
console.log(`${readFileSync(PATH).length} bytes, ${track.frames.length} frames`);
