/**
 * `npm run accuracy`: poses the reference clips, makes motions of them with the default settings and holds every angle
 * against the truth beside the clip.
 *
 *     npm run accuracy -- [--model lite|full|heavy] [--out FILE] [--write]
 *
 * --out writes the result to a file, --write puts it into docs/accuracy.md. It measures and prints, nothing more: no
 * setting depends on its result.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { MODEL_SIZES, type ModelSize, type Track } from '../../src/pose/track.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { cachedTrack } from './cachedTrack.ts';
import { type ClipResult, compareClip } from './compareClip.ts';
import { accuracyReport } from './report.ts';
import { readTruth } from './truthFile.ts';

const CLIPS = join(PROJECT_FOLDER, 'reference-clips');
const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'accuracy.md');
const TRUTH_END = '.truth.json';

function clipFile(name: string): string {
  const file = readdirSync(CLIPS).find((entry) => entry === `${name}.webm` || entry === `${name}.mp4`);
  if (file === undefined) throw new Error(`There is a truth of ${name}, but no clip beside it: npm run clips makes it.`);
  return join(CLIPS, file);
}

const { values } = parseArgs({
  options: { model: { type: 'string', default: 'full' }, out: { type: 'string' }, write: { type: 'boolean', default: false } },
});
const model = MODEL_SIZES.find((size): size is ModelSize => size === values.model);
if (model === undefined) throw new Error(`--model is "${values.model}"; it can be ${MODEL_SIZES.join(', ')}.`);

const names = readdirSync(CLIPS).filter((file) => file.endsWith(TRUTH_END)).map((file) => file.slice(0, -TRUTH_END.length)).sort();
if (names.length === 0) throw new Error('There are no reference clips: npm run clips makes them.');

const truths = new Map(names.map((name) => [name, readTruth(join(CLIPS, `${name}${TRUTH_END}`))]));
const tracks = new Map<string, Track>();
for (const name of names) tracks.set(name, await cachedTrack(clipFile(name), name, model));

/** All clips, read from the fitted body or from the landmarks alone. */
function measured(fitted: boolean): string {
  const usedCutoffs = new Set<string>();
  const results: ClipResult[] = names.map((name) => {
    const track = tracks.get(name)!;
    const motion = trackToMotion(track, DEFAULT_SETTINGS, fitted ? fitTake(track, DEFAULT_SETTINGS.captureFactor) : null);
    usedCutoffs.add(motion.usedCutoffHz === null ? 'not smoothed' : `${motion.usedCutoffHz.toFixed(1)} Hz`);
    return compareClip(truths.get(name)!, track, motion);
  });
  const how = `Model ${model}, image mode; cut-off asked ${DEFAULT_SETTINGS.cutoffHz} Hz, used ${[...usedCutoffs].join(', ')}; ` +
    `${results.length} clips, ${results.reduce((n, { frames }) => n + frames, 0)} frames. Printed by \`npm run accuracy\`.`;
  return accuracyReport(results, how, (name) => truths.get(name)!.timesS);
}

const report = ['### Read from the fitted body', measured(true), '### Read from the landmarks alone', measured(false)].join('\n\n');
console.log(report);
if (values.out !== undefined) writeFileSync(values.out, `${report}\n`);
if (values.write) writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), `accuracy of the model ${model}`, report));
