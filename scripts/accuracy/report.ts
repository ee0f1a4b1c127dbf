/**
 * The results as Markdown: the same text on the terminal and in the document.
 */
import { markdownTable } from '../bench/document/markdownTable.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { ModelSize } from '../../src/pose/track.ts';
import { CLIP_SETS } from '../clips/clip.ts';
import { angleTable, clipTable, turnTable } from './angleTables.ts';
import { bodyTable, compared, extremesWord, frameTable, timingTable } from './bodyTables.ts';
import { coverageOfClips } from './coverageTable.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { MOVING_DEG_PER_S } from './moving.ts';
import { TARGETS, verdicts } from './targets.ts';

/** Both halves beside each other, so that one sees whether the tuning flatters; the targets count for reporting alone. */
function targetTable(clips: readonly MeasuredClip[], model: keyof typeof TARGETS): string {
  const halves = CLIP_SETS.map((set) => verdicts(clips.filter((clip) => clip.set === set), model));
  const [tuning = [], reporting = []] = halves;
  return markdownTable(
    ['target', 'wanted', 'reporting half', 'met', 'tuning half'],
    reporting.map(({ what, wanted, found, met }, i) => [what, wanted, found, met ? 'yes' : '**no**', tuning[i]?.found ?? '']),
  );
}

const hasTargets = (model: ModelSize): model is keyof typeof TARGETS => model in TARGETS;

/**
 * @param clips measured with one model, in the order in which they shall stand
 * @param missing a sentence on clips that are not there
 */
export function fullReport(clips: readonly MeasuredClip[], model: ModelSize, missing?: string): string {
  const frames = clips.reduce((n, { truth }) => n + truth.frames, 0);
  const count = CLIP_SETS.map((set) => `${clips.filter((clip) => clip.set === set).length} ${set}`).join(', ');
  const results = compared(clips);
  const timesOf = new Map(clips.map(({ name, truth }) => [name, truth.timesS]));
  return [
    `Model ${model}, image mode, default settings (cut-off ${DEFAULT_SETTINGS.cutoffHz} Hz); ${clips.length} clips (${count}), ${frames} frames. Printed by \`npm run accuracy\`.${missing === undefined ? '' : ` **${missing}**`}`,
    ...(hasTargets(model) ? [`### Against the targets\n\n${targetTable(clips, model)}`] : []),
    `### Angles\n\nRoot mean square errors. A value is moving where the true angle changes faster than ${MOVING_DEG_PER_S}° a second. Flagged values (one camera can't know them, or they were bridged) are not in the columns before, and stand in the last two.\n\n${angleTable(clips)}`,
    `### Whole turns\n\n${turnTable(clips)}`,
    `### What the said error is worth

Share of true angles within the error that the motion carries for them (\`errorDeg\`, meant to hold in about 68 % of cases), overall and in each fifth of its range, flagged or not. Of which angle for each joint: [errors.md](errors.md).

${coverageOfClips(clips)}`,
    `### Clip by clip\n\nFitted, all frames, flagged or not.\n\n${clipTable(clips)}`,
    `### Feet, bones, path and camera\n\n${bodyTable(clips)}`,
    `### Frames and landmarks\n\n${frameTable(results)}`,
    `### Moments\n\nOf the joint that moves farthest in each clip, fitted. Positive is late. ${extremesWord(results)}\n\n${timingTable(results, (name) => timesOf.get(name) ?? [])}`,
  ].join('\n\n');
}
