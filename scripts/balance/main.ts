/**
 * `npm run balance`: holds the balance against the truth of the reference clips and against a rigid-body engine, and prints what comes out.
 *
 *     npm run balance [-- --write]
 *
 * --write puts the result into docs/balance.md. Clips that have not been posed yet are left out and named (npm run accuracy -- --pose poses
 * them). It measures and prints; no setting depends on its result.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { cachedTrack, hasTrack } from '../accuracy/cachedTrack.ts';
import { clipFiles } from '../accuracy/clipFiles.ts';
import { readTruth } from '../accuracy/truthFile.ts';
import { figure, percent } from '../accuracy/words.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { clipBalance } from './clipBalance.ts';
import { flightTable } from './flightTable.ts';
import { independentSigma } from './independentSigma.ts';
import { oneLegTable } from './oneLegTable.ts';
import { physicsReport } from './physics/physicsReport.ts';
import { tryPoses } from './physics/tryPoses.ts';
import { clipTable, contactTable, pairs, sigmaWord, verdictTable, type NamedBalance } from './tables.ts';

const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'balance.md');
const EACH = 60;

const { values } = parseArgs({ options: { write: { type: 'boolean', default: false } } });

const { there, missing } = clipFiles();
const posed = there.filter(({ clip, name }) => hasTrack(clip, name, 'full'));
const left = [...missing, ...there.filter((file) => !posed.includes(file)).map(({ name }) => name)];
const clips: NamedBalance[] = [];
const wide: number[] = [];
let oneLeg = { coreOffMm: Number.NaN, table: '' };
for (const { name, set, clip, truth: path } of posed) {
  const truth = readTruth(path);
  const track = await cachedTrack(clip, name, 'full');
  const one = { name, set, ...clipBalance(truth, track, fitTake(track, 1), MARLA) };
  clips.push(one);
  const apart = independentSigma(one.plan, MARLA);
  for (let s = 0; s < one.plan.stepCount; s++) if (!Number.isNaN(one.measured.standMm[s]!)) wide.push(apart[s * 2]!);
  if (name === 'one-leg-reach') oneLeg = oneLegTable(truth, track);
  process.stderr.write(`${name} `);
}
process.stderr.write('\n');
const tried = await tryPoses(EACH);
wide.sort((a, b) => a - b);
const shareWithin = (): string => {
  const all = clips.flatMap(pairs).filter(({ sameContacts }) => sameContacts);
  return percent(all.filter(({ measuredMm, exactMm }) => Math.abs(measuredMm - exactMm) <= (wide[Math.floor(wide.length / 2)] ?? 0)).length / all.length, 0);
};

const truthReport = [
  `Model full, default settings, Marla (280 mm); ${clips.length} clips.${left.length > 0 ? ` **Left out, since not there or not posed: ${left.join(', ')}.**` : ''} Printed by \`npm run balance\`.`,
  `### On one leg\n\nThe clip's figure at Marla's height and weight. The core's margin of the exact pose is off the one added up by hand by at most ${figure(oneLeg.coreOffMm, 3)} mm.\n\n${oneLeg.table}`,
  `### Clip by clip\n\nMeasured against the figure's exact pose on the same puppet, millimetres, root mean squares (the margin's steady part: its mean). Steps in which the take has other feet touching than the truth are counted and left out of the errors.\n\n${clipTable(clips)}\n${sigmaWord(clips, completeArmature(MARLA).heightMm / 1.7)}\n\nThe joints' errors carried through one by one, as if independent, would make a median σ of ${figure(wide[Math.floor(wide.length / 2)])} mm, and ${shareWithin()} of the margins lie within that.`,
  `### Verdicts of standing\n\n${verdictTable(clips)}`,
  `### Which feet touch\n\n${contactTable(clips)}`,
  `### In the air\n\n${flightTable(clips)}`,
].join('\n\n');
const engineReport = `${tried.length} poses, ${EACH} of each example armature. Printed by \`npm run balance\`.\n\n${physicsReport(tried)}`;
console.log(`${truthReport}\n\n## Engine\n\n${engineReport}`);
if (values.write) {
  const text = readFileSync(DOCUMENT, 'utf8');
  writeFileSync(DOCUMENT, replaceBetweenMarkers(replaceBetweenMarkers(text, 'clips with truth', truthReport), 'rigid bodies', engineReport));
}
