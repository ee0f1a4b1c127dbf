/**
 * `npm run accuracy`: poses the clips whose truth is known, makes motions of them with the default settings and holds every
 * angle against the truth beside the clip, the tuning half and the reporting half apart.
 *
 *     npm run accuracy -- [--model lite|full|heavy] [--set tuning|reporting|all] [--out FILE] [--write]
 *     npm run accuracy -- --brief [--model …] [--set …] [clip names…]   a summary, of clips that have been posed already
 *     npm run accuracy -- --pose                                        only poses what is there, with all three models
 *     npm run accuracy -- --real [--write]                              real footage beside the project, which has no truth
 *
 * --out writes the result to a file, --write puts it into docs/accuracy.md. It measures and prints, nothing more: no
 * setting depends on its result.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { MODEL_SIZES, type ModelSize } from '../../src/pose/track.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { CLIP_SETS, type ClipSet } from '../clips/clip.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { briefReport } from './brief.ts';
import { cachedTrack, hasTrack } from './cachedTrack.ts';
import { clipFiles, missingWord } from './clipFiles.ts';
import { halvesTable } from './halvesTable.ts';
import { measureClip, type MeasuredClip } from './measuredClip.ts';
import { poseClips } from './poseClips.ts';
import { realReport } from './real/realReport.ts';
import { fullReport } from './report.ts';

const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'accuracy.md');

/** Puts a printed part into the document. */
const put = (part: string, text: string): void => { writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), part, text)); };

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    model: { type: 'string', default: 'full' }, set: { type: 'string', default: 'all' }, out: { type: 'string' },
    write: { type: 'boolean', default: false }, brief: { type: 'boolean', default: false }, real: { type: 'boolean', default: false }, pose: { type: 'boolean', default: false },
  },
});
const model = MODEL_SIZES.find((size): size is ModelSize => size === values.model);
if (model === undefined) throw new Error(`--model is "${values.model}"; it can be ${MODEL_SIZES.join(', ')}.`);
const sets: readonly ClipSet[] = values.set === 'all' ? CLIP_SETS : CLIP_SETS.filter((set) => set === values.set);
if (sets.length === 0) throw new Error(`--set is "${values.set}"; it can be ${CLIP_SETS.join(', ')}, all.`);

const { there, missing } = clipFiles();
const word = missingWord(missing);
if (word !== undefined) console.error(word);
const files = there.filter(({ name, set }) => (positionals.length > 0 ? positionals.includes(name) : sets.includes(set)));

if (values.pose) {
  await poseClips(['full', 'heavy', 'lite']);
} else if (values.real) {
  const report = await realReport(values.write);
  console.log(report);
  if (values.write) put('checks on real footage', report);
} else if (values.brief) {
  const posed = files.filter(({ clip, name }) => hasTrack(clip, name, model));
  const clips: MeasuredClip[] = [];
  for (const file of posed) clips.push(measureClip(file, await cachedTrack(file.clip, file.name, model)));
  if (posed.length < files.length) console.error(`${files.length - posed.length} clips have not been posed with ${model} yet: npm run accuracy -- --pose does it.`);
  for (const set of positionals.length > 0 ? [CLIP_SETS] : sets.map((one) => [one])) {
    const those = clips.filter((clip) => set.includes(clip.set));
    if (those.length > 0) console.log(`${briefReport(those, `${model}, ${set.join(' and ')}`)}\n`);
  }
} else {
  const clips: MeasuredClip[] = [];
  for (const file of files) {
    clips.push(measureClip(file, await cachedTrack(file.clip, file.name, model)));
    process.stderr.write(`${file.name} `);
  }
  process.stderr.write('\n');
  const report = fullReport(clips, model, word);
  console.log(report);
  if (values.out !== undefined) writeFileSync(values.out, `${report}\n`);
  if (values.write) {
    put(`accuracy of the model ${model}`, report);
    put('the two halves', halvesTable());
  }
}
