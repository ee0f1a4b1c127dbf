/**
 * `npm run calibrate`: makes the error model of `src/motion/trust` from the clips whose truth is known, and says how well it holds.
 *
 *     npm run calibrate -- [--of read,fitted,alone] [--write]
 *
 * Three models of errors: of a body fitted with what the reader says (`read`, sizes of the pose model that have a reader), of one fitted
 * without it (`fitted`, the other sizes), and of the landmarks alone (`alone`). --of makes some of them and leaves the others as they are.
 * The tuning half makes the model, the reporting half is only looked at. Clips that have not been rendered or posed are
 * named and left out: `npm run clips -- --set all` renders, `npm run accuracy` poses. --write puts the models into
 * src/motion/trust/calibration.ts and the tables into docs/errors.md. Run it again whenever the fit or the clips change.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { TAUGHT } from '../../src/motion/fit/reader/taught.ts';
import { CALIBRATION } from '../../src/motion/trust/calibration.ts';
import { ERROR_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import { doubtOf, errorDegOf, type ErrorModel } from '../../src/motion/trust/errorModel.ts';
import { PREDICTORS } from '../../src/motion/trust/predictors.ts';
import { MODEL_SIZES, type ModelSize } from '../../src/pose/track.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { trueClips } from './clipList.ts';
import { coverageTable } from './coverage.ts';
import { makeModel } from './makeModel.ts';
import { jointFrames, knownTrack, type JointFrame } from './samples.ts';

const MODEL_FILE = join(PROJECT_FOLDER, 'src', 'motion', 'trust', 'calibration.ts');
const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'errors.md');

interface Kind {
  readonly key: 'read' | 'fitted' | 'alone';
  readonly fitted: boolean;
  readonly sizes: readonly ModelSize[];
  readonly title: string;
}

const KINDS: readonly Kind[] = [
  { key: 'read', fitted: true, sizes: MODEL_SIZES.filter((size) => TAUGHT[size] !== null), title: 'From the body fitted with the reader' },
  { key: 'fitted', fitted: true, sizes: MODEL_SIZES.filter((size) => TAUGHT[size] === null), title: 'From the body fitted without a reader' },
  { key: 'alone', fitted: false, sizes: MODEL_SIZES, title: 'From the landmarks alone' },
];

const { values } = parseArgs({ options: { of: { type: 'string', default: KINDS.map(({ key }) => key).join(',') }, write: { type: 'boolean', default: false } } });
const asked = KINDS.filter(({ key }) => values.of.split(',').includes(key));
if (asked.length === 0) throw new Error(`--of takes ${KINDS.map(({ key }) => key).join(', ')}.`);
const { clips, missing } = trueClips();
/** Clips that went into any of the models made now. */
const used = new Set<string>();

interface Half { readonly tuning: JointFrame[]; readonly reporting: Map<string, JointFrame[]> }

function gather({ fitted, sizes }: Kind, unposed: string[]): Half {
  const half: Half = { tuning: [], reporting: new Map(sizes.map((size) => [size, []])) };
  clips.forEach((clip, index) => {
    for (const model of sizes) {
      const track = knownTrack(clip, model);
      if (track === undefined) {
        unposed.push(`${clip.name} (${model})`);
        continue;
      }
      used.add(clip.name);
      process.stderr.write(`${clip.name}, ${model}, ${fitted ? 'fitted' : 'landmarks alone'}\n`);
      const frames = jointFrames(clip, index, track, fitted);
      if (clip.half === 'tuning') half.tuning.push(...frames);
      else half.reporting.get(model)!.push(...frames);
    }
  });
  return half;
}

/** Frames as the new model judges them. */
function judged(model: ErrorModel, frames: readonly JointFrame[]): JointFrame[] {
  return frames.map((frame) => {
    const errorDeg = errorDegOf(model, frame.errorClass, frame.x);
    return { ...frame, errorDeg, unsure: doubtOf(model, frame.errorClass, frame.x, errorDeg) };
  });
}

const said = (frame: JointFrame): number => frame.errorDeg;
const models: Record<Kind['key'], ErrorModel> = { read: CALIBRATION.read, fitted: CALIBRATION.fitted, alone: CALIBRATION.alone };
const namesOf = (half: 'tuning' | 'reporting'): string[] => clips.filter((clip) => clip.half === half && used.has(clip.name)).map(({ name }) => name);
const reports = new Map<Kind['key'], string>();
for (const kind of asked) {
  const unposed: string[] = [];
  const half = gather(kind, unposed);
  const { model, says } = makeModel(half.tuning);
  models[kind.key] = model;
  const lines = [
    `### ${kind.title}`, '',
    `Models: ${kind.sizes.join(', ')}. Tuning half: ${namesOf('tuning').join(', ')}. Reporting half: ${namesOf('reporting').join(', ') || 'none yet, so nothing is shown of clips the model has not seen'}.`,
    ...(missing.length > 0 ? [`Not rendered: ${missing.join(', ')}.`] : []), ...(unposed.length > 0 ? [`Not posed: ${unposed.join(', ')}.`] : []),
    'Printed by `npm run calibrate`.', '',
    `${half.tuning.length} joint values of the tuning half made the model. ${says}`, '',
    'Tuning half (what the model was made on):', '', ...coverageTable(judged(model, half.tuning), said), '',
  ];
  const reporting = [...half.reporting].filter(([, frames]) => frames.length > 0);
  for (const [size, frames] of reporting) lines.push(`Reporting half, model ${size}:`, '', ...coverageTable(judged(model, frames), said), '');
  if (reporting.length > 1) {
    lines.push('Reporting half, all these models:', '', ...coverageTable(judged(model, reporting.flatMap(([, frames]) => frames)), said), '');
  }
  lines.push('The model: logarithm of the error in degrees at the start, and by how much each predictor raises it.', '', ...modelTable(model));
  reports.set(kind.key, lines.join('\n').trimEnd());
}
for (const report of reports.values()) console.log(`${report}\n`);
if (values.write) {
  writeFileSync(MODEL_FILE, modelSource());
  for (const [key, report] of reports) writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), `the calibration: ${key}`, report));
}

function modelTable(model: ErrorModel): string[] {
  return [
    `| joints | start | ${PREDICTORS.join(' | ')} | unsure above, ° |`, `| --- | --: |${' --: |'.repeat(PREDICTORS.length)} --: |`,
    ...ERROR_CLASSES.map((name, c) => `| ${name} | ${model.start[c]!.toFixed(2)} | ${model.slope[c]!.map((by) => (by < 0.005 ? '·' : by.toFixed(2))).join(' | ')} | ${model.limitDeg[c]!.toFixed(1)} |`),
  ];
}

function modelSource(): string {
  const rows = (table: readonly (readonly number[])[]): string => `[\n${table.map((row) => `      [${row.join(', ')}],`).join('\n')}\n    ]`;
  const one = (model: ErrorModel): string => `{
    start: [${model.start.join(', ')}],
    slope: ${rows(model.slope)},
    most: ${rows(model.most)},
    limitDeg: [${model.limitDeg.join(', ')}],
    floorDeg: ${model.floorDeg},
  }`;
  return `/**
 * The calibration of errorDeg. Written by \`npm run calibrate -- --write\`, not by hand; docs/errors.md tells how and how well it holds.
 * Rows: ERROR_CLASSES (${ERROR_CLASSES.join(', ')}). Columns: PREDICTORS (${PREDICTORS.join(', ')}).
 */
import type { Certificate, ErrorModel } from './errorModel.ts';

export const CALIBRATION: { readonly read: ErrorModel; readonly fitted: ErrorModel; readonly alone: ErrorModel; readonly certificate: Certificate } = {
  read: ${one(models.read)},
  fitted: ${one(models.fitted)},
  alone: ${one(models.alone)},
  certificate: {
    made: '${new Date().toISOString().slice(0, 10)}',
    tuning: [${namesOf('tuning').map((name) => `'${name}'`).join(', ')}],
    reporting: [${namesOf('reporting').map((name) => `'${name}'`).join(', ')}],
  },
};
`;
}
