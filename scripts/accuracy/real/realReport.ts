/**
 * The checks on real footage as Markdown, and their pictures.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import type { ModelSize } from '../../../src/pose/track.ts';
import { markdownTable } from '../../bench/document/markdownTable.ts';
import { PROJECT_FOLDER } from '../../serve/projectFolder.ts';
import { cachedTrack } from '../cachedTrack.ts';
import { figure, NONE, percent } from '../words.ts';
import { FLIP_DEG, realChecks, type RealChecks } from './realChecks.ts';
import { type RealTake, realTakes } from './realTakes.ts';
import { skeletonPicture } from './skeletonPicture.ts';

const MODELS: readonly ModelSize[] = ['full', 'heavy'];
const PICTURES = join(PROJECT_FOLDER, 'docs', 'pictures');
const SHOWN = 5;
const STANDING_KNEES_DEG = 8;
const SLIDE = 0.02;

const spread = (body: FittedBody): number[] => {
  const last = body.timesS.length - 1;
  return [...new Set(Array.from({ length: SHOWN }, (_, k) => Math.round((last * (k + 0.5)) / SHOWN)))];
};

function row({ name }: RealTake, model: ModelSize, c: RealChecks): string[] {
  const met = (ok: boolean): string => (ok ? 'yes' : '**no**');
  return [
    name, model, `${c.frames} (${c.standing})`,
    `${figure(c.rawKnees.mean, 0)}, ${figure(c.rawKnees.most, 0)}`, `${figure(c.fittedKnees.mean)}, ${figure(c.fittedKnees.most)}`, c.standing === 0 ? NONE : met(c.fittedKnees.most <= STANDING_KNEES_DEG),
    `${figure(c.largestTurn.deg, 0)} (${c.largestTurn.joint}, ${figure(c.largestTurn.atS)} s)`, String(c.flips),
    percent(c.boneSpread, 2), `${percent(c.slideWorst, 2)}, ${percent(c.slideMedian, 2)}`, met(!(c.slideWorst > SLIDE)), percent(c.unsureShare),
  ];
}

/** @param draw also writes the pictures into docs/pictures */
export async function realReport(draw: boolean): Promise<string> {
  const { takes, missing } = await realTakes();
  const rows: string[][] = [];
  for (const take of takes) {
    for (const model of MODELS) {
      const track = await cachedTrack(take.clip, take.name, model);
      const body = fitTake(track, DEFAULT_SETTINGS.captureFactor);
      rows.push(row(take, model, realChecks(track, body, trackToMotion(track, DEFAULT_SETTINGS, null), trackToMotion(track, DEFAULT_SETTINGS, body), take.stands)));
      if (draw && model === 'heavy') {
        const frames = take.name === 'real-still' ? [Math.floor(body.timesS.length / 2)] : spread(body);
        writeFileSync(join(PICTURES, `${take.name}.svg`), skeletonPicture(body, frames, `The fitted body: ${take.says}.`));
      }
    }
  }
  return [
    ...missing.map((file) => `**Left out, because it is not there: ${file.split('/').slice(-2).join('/')}.**`),
    markdownTable([
      'take', 'model', 'frames (standing)|r', 'standing knees, landmarks alone: mean, most, °|r', 'fitted, °|r', `≤ ${STANDING_KNEES_DEG}°`,
      'largest turn between frames, °|r', `beyond ${FLIP_DEG}°|r`, 'a bone changes|r', 'standing foot strays, of stature: worst, median|r', `< ${100 * SLIDE} %`, 'flagged|r',
    ], rows),
  ].join('\n\n');
}
