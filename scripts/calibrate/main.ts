/**
 * `npm run calibrate`: makes the error model of `src/motion/trust` from the clips whose truth is known, and says how well it holds.
 *
 *     npm run calibrate -- [--of read,fitted,alone] [--write]
 *
 * Three models of errors, each with one beside it of the turn about the bone: of a body fitted with what the reader says (`read`, sizes
 * of the pose model that have a reader), of one fitted without it (`fitted`), and of the landmarks alone (`alone`). --of makes some of them and leaves the others as they are.
 * The tuning half makes the model, the reporting half is only looked at. Clips that have not been rendered or posed are
 * named and left out: `npm run clips -- --set all` renders, `npm run accuracy` poses. --write puts the models into
 * src/motion/trust/calibration.ts and the tables into docs/errors.md. Run it again whenever the fit or the clips change.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { createFitter, fitTake } from '../../src/motion/fit/fitTake.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { TAUGHT } from '../../src/motion/fit/reader/taught.ts';
import { CALIBRATION } from '../../src/motion/trust/calibration.ts';
import { ERROR_CLASSES, TURN_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import { doubtOf, errorDegOf, type ErrorModel, type ErrorModels } from '../../src/motion/trust/errorModel.ts';
import { PREDICTORS, TURN_PREDICTORS } from '../../src/motion/trust/predictors.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { MODEL_SIZES, type ModelSize, type Track } from '../../src/pose/track.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { trueClips } from './clipList.ts';
import { coverageTable, turnTable } from './coverage.ts';
import { makeModel, makeTurnModel } from './makeModel.ts';
import { jointFrames, knownTrack, turnFrames, type JointFrame } from './samples.ts';

const MODEL_FILE = join(PROJECT_FOLDER, 'src', 'motion', 'trust', 'calibration.ts');
const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'errors.md');

interface Kind {
  readonly key: keyof ErrorModels;
  /** The figure that the angles are read from; `null`: the landmarks. */
  readonly fit: (track: Track) => FittedBody | null;
  readonly sizes: readonly ModelSize[];
  readonly title: string;
}

const { captureFactor } = DEFAULT_SETTINGS;
const KINDS: readonly Kind[] = [
  { key: 'read', fit: (track) => fitTake(track, captureFactor), sizes: MODEL_SIZES.filter((size) => TAUGHT[size] !== null), title: 'From the body fitted with the reader' },
  { key: 'fitted', fit: (track) => createFitter(() => null).fit(track, captureFactor), sizes: MODEL_SIZES, title: 'From the body fitted without a reader' },
  { key: 'alone', fit: () => null, sizes: MODEL_SIZES, title: 'From the landmarks alone' },
];

const { values } = parseArgs({ options: { of: { type: 'string', default: KINDS.map(({ key }) => key).join(',') }, write: { type: 'boolean', default: false } } });
const asked = KINDS.filter(({ key }) => values.of.split(',').includes(key));
if (asked.length === 0) throw new Error(`--of takes ${KINDS.map(({ key }) => key).join(', ')}.`);
const { clips, missing } = trueClips();
/** Clips that went into any of the models made now. */
const used = new Set<string>();

interface Half { readonly tuning: JointFrame[]; readonly reporting: Map<string, JointFrame[]> }

function gather({ key, fit, sizes }: Kind, unposed: string[]): Half {
  const half: Half = { tuning: [], reporting: new Map(sizes.map((size) => [size, []])) };
  clips.forEach((clip, index) => {
    for (const model of sizes) {
      const track = knownTrack(clip, model);
      if (track === undefined) {
        unposed.push(`${clip.name} (${model})`);
        continue;
      }
      used.add(clip.name);
      process.stderr.write(`${clip.name}, ${model}, ${key}\n`);
      const frames = jointFrames(clip, index, track, fit(track));
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
const turns: Record<Kind['key'], ErrorModel> = { ...CALIBRATION.turn };
const namesOf = (half: 'tuning' | 'reporting'): string[] => clips.filter((clip) => clip.half === half && used.has(clip.name)).map(({ name }) => name);
const reports = new Map<Kind['key'], string>();
for (const kind of asked) {
  const unposed: string[] = [];
  const half = gather(kind, unposed);
  const { model, says } = makeModel(half.tuning);
  const { model: turnModel, says: turnSays } = makeTurnModel(turnFrames(half.tuning));
  models[kind.key] = model;
  turns[kind.key] = turnModel;
  /** Directions, then turns about the bone. */
  const tables = (frames: readonly JointFrame[]): string[] => [
    ...coverageTable(judged(model, frames), said), '', ...turnTable(judged(turnModel, turnFrames(frames)), said, turnModel.limitDeg), '',
  ];
  const lines = [
    `### ${kind.title}`, '',
    `Models: ${kind.sizes.join(', ')}. Tuning half: ${namesOf('tuning').join(', ')}. Reporting half: ${namesOf('reporting').join(', ') || 'none yet, so nothing is shown of clips the model has not seen'}.`,
    ...(missing.length > 0 ? [`Not rendered: ${missing.join(', ')}.`] : []), ...(unposed.length > 0 ? [`Not posed: ${unposed.join(', ')}.`] : []),
    'Printed by `npm run calibrate`.', '',
    `${half.tuning.length} joint values of the tuning half made the model. ${says}`, '',
    `Of the turn about the bone: ${turnSays}`, '',
    'Tuning half (what the model was made on):', '', ...tables(half.tuning),
  ];
  const reporting = [...half.reporting].filter(([, frames]) => frames.length > 0);
  for (const [size, frames] of reporting) lines.push(`Reporting half, model ${size}:`, '', ...tables(frames));
  if (reporting.length > 1) {
    lines.push('Reporting half, all these models:', '', ...tables(reporting.flatMap(([, frames]) => frames)));
  }
  lines.push('The model: logarithm of the error in degrees at the start, and by how much each predictor raises it.', '', ...modelTable(model, ERROR_CLASSES, PREDICTORS), '');
  lines.push('The model of the turn about the bone:', '', ...modelTable(turnModel, TURN_CLASSES, TURN_PREDICTORS));
  reports.set(kind.key, lines.join('\n').trimEnd());
}
for (const report of reports.values()) console.log(`${report}\n`);
if (values.write) {
  writeFileSync(MODEL_FILE, modelSource());
  for (const [key, report] of reports) writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), `the calibration: ${key}`, report));
}

function modelTable(model: ErrorModel, classes: readonly string[], predictors: readonly string[]): string[] {
  return [
    `| joints | start | ${predictors.join(' | ')} | unsure above, ° |`, `| --- | --: |${' --: |'.repeat(predictors.length)} --: |`,
    ...classes.map((name, c) => `| ${name} | ${model.start[c]!.toFixed(2)} | ${model.slope[c]!.map((by) => (by < 0.005 ? '·' : by.toFixed(2))).join(' | ')} | ${model.limitDeg[c]!.toFixed(1)} |`),
  ];
}

function modelSource(): string {
  const one = (model: ErrorModel, indent: string): string => {
    const rows = (table: readonly (readonly number[])[]): string => `[\n${table.map((row) => `${indent}    [${row.join(', ')}],`).join('\n')}\n${indent}  ]`;
    return `{
${indent}  start: [${model.start.join(', ')}],
${indent}  slope: ${rows(model.slope)},
${indent}  most: ${rows(model.most)},
${indent}  limitDeg: [${model.limitDeg.join(', ')}],
${indent}  floorDeg: ${model.floorDeg},
${indent}}`;
  };
  const three = (some: Record<Kind['key'], ErrorModel>, indent: string): string =>
    KINDS.map(({ key }) => `${indent}${key}: ${one(some[key], indent)},`).join('\n');
  const list = (names: readonly string[]): string => `[${names.map((name) => `'${name}'`).join(', ')}]`;
  return `/**
 * The calibration of errorDeg and of turnErrorDeg (\`turn\`). Written by \`npm run calibrate -- --write\`, not by hand; docs/errors.md
 * tells how and how well it holds.
 * Rows: ERROR_CLASSES (${ERROR_CLASSES.join(', ')}). Columns: PREDICTORS (${PREDICTORS.join(', ')}).
 * Of the turn: TURN_CLASSES (${TURN_CLASSES.join(', ')}), TURN_PREDICTORS (those, ${TURN_PREDICTORS.slice(PREDICTORS.length).join(', ')}).
 */
import type { Certificate, ErrorModels } from './errorModel.ts';

export const CALIBRATION: ErrorModels & { readonly turn: ErrorModels; readonly certificate: Certificate } = {
${three(models, '  ')}
  turn: {
${three(turns, '    ')}
  },
  certificate: {
    made: '${new Date().toISOString().slice(0, 10)}',
    tuning: ${list(namesOf('tuning'))},
    reporting: ${list(namesOf('reporting'))},
  },
};
`;
}
