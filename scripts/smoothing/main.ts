/**
 * `npm run smoothing`: what both smoothers do at a range of cut-offs, on a made-up elbow and on the clips whose truth is
 * known.
 *
 *     npm run smoothing -- [--model lite|full|heavy] [--no-clips] [--write]
 *
 * Clips are taken as posed already (`npm run accuracy -- --pose`). --write puts the result into docs/smoothing.md.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { MODEL_SIZES, type ModelSize } from '../../src/pose/track.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { clipTable } from './clips.ts';
import type { Way } from './elbow.ts';
import { badlySeen, ends, extremeOffFrames, gain, gap, hold, lag } from './figures.ts';

const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'smoothing.md');
const CUTOFFS_HZ = [3, 3.5, 4, 4.5, 5, 6, 8];
const WAYS: readonly Way[] = [
  { smoother: 'butterworth', cutoffHz: 0 },
  ...(['butterworth', 'penalised'] as const).flatMap((smoother) => CUTOFFS_HZ.map((cutoffHz): Way => ({ smoother, cutoffHz }))),
];

const { values } = parseArgs({
  options: { model: { type: 'string', default: 'full' }, 'no-clips': { type: 'boolean', default: false }, write: { type: 'boolean', default: false } },
});
const model = MODEL_SIZES.find((size): size is ModelSize => size === values.model);
if (model === undefined) throw new Error(`--model is "${values.model}"; it can be ${MODEL_SIZES.join(', ')}.`);
if (values.write && values['no-clips']) throw new Error('--write needs the clips: leave --no-clips out.');

const wayName = ({ smoother, cutoffHz }: Way): string => {
  if (cutoffHz === 0) return 'none';
  const isDefault = smoother === DEFAULT_SETTINGS.smoother && cutoffHz === DEFAULT_SETTINGS.cutoffHz;
  return isDefault ? `**${smoother} ${cutoffHz} Hz** (default)` : `${smoother} ${cutoffHz} Hz`;
};

const made = markdownTable(
  ['', 'gain at 0.5 Hz|r', '1 Hz|r', '2 Hz|r', '3 Hz|r', 'jitter in a hold, °|r', 'drift, °|r', 'end of a cut move, °|r', 'end of a hold, °|r', 'gap of 0.2 s, °|r', 'badly seen, °|r'],
  WAYS.map((way) => {
    const { jitterDeg, driftDeg } = hold(way);
    const { cutMoveDeg, holdDeg } = ends(way);
    return [
      wayName(way), ...[0.5, 1, 2, 3].map((hz) => gain(way, hz).toFixed(3)), jitterDeg.toFixed(3), driftDeg.toFixed(2),
      cutMoveDeg.toFixed(2), holdDeg.toFixed(2), gap(way).toFixed(2), badlySeen(way).toFixed(2),
    ];
  }),
);

const normal: Way = DEFAULT_SETTINGS;
const lags = markdownTable(
  ['default, trembling sine', 'late at ±2°, ms|r', '±5°|r', '±20°|r', 'extremes off, clean, frames|r'],
  [0.5, 1, 2].map((hz) => [
    `${hz} Hz`,
    ...[2, 5, 20].map((halfDeg) => {
      const { ms, chanceMs } = lag(normal, hz, halfDeg);
      return `${ms.toFixed(2)} ± ${chanceMs.toFixed(2)}`;
    }),
    Math.max(...[2, 5, 20].map((halfDeg) => extremeOffFrames(normal, hz, halfDeg))).toFixed(3),
  ]),
);

const parts = [`### A made-up elbow\n\n${made}\n\n${lags}`];
if (!values['no-clips']) {
  const { clips, raw, fitted } = await clipTable(WAYS, model, (line) => { process.stderr.write(`${line} `); });
  process.stderr.write('\n');
  parts.push(`### Clips with truth, model ${model}\n\n${clips.length} clips: ${clips.join(', ')}.\n\n${markdownTable(
    ['limb angles', 'landmarks: RMSE, °|r', 'median of clips, °|r', 'jitter in holds, °|r', 'fitted: RMSE, °|r', 'median of clips, °|r', 'jitter in holds, °|r'],
    WAYS.map((way, w) => [
      wayName(way), ...[raw[w]!, fitted[w]!].flatMap(({ rmseDeg, medianRmseDeg, jitterDeg }) => [rmseDeg.toFixed(2), medianRmseDeg.toFixed(2), jitterDeg.toFixed(3)]),
    ]),
  )}`);
}
const report = parts.join('\n\n');
console.log(report);
if (values.write) writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), 'smoothing', report));
