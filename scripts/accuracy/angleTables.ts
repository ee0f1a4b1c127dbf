/**
 * Errors of angles as Markdown: by class for each half, and clip by clip.
 */
import { markdownTable } from '../bench/document/markdownTable.ts';
import { CLIP_SETS } from '../clips/clip.ts';
import { JOINT_CLASSES } from './bodyAngles.ts';
import { HINGES, type MeasureClass, SHOULDERS_AND_HIPS, TURN_CLASSES } from './measures.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { tally } from './tally.ts';
import { figure, percent, signed } from './words.ts';

interface Row {
  readonly title: string;
  readonly classes: readonly MeasureClass[];
}

const row = (title: MeasureClass): Row => ({ title, classes: [title] });
const TOGETHER: readonly Row[] = [
  { title: 'elbows and knees together', classes: HINGES },
  { title: 'shoulders and hips together', classes: SHOULDERS_AND_HIPS },
];

function classTable(clips: readonly MeasuredClip[], rows: readonly Row[], withBias: boolean): string {
  const cells = rows.flatMap(({ title, classes }) => CLIP_SETS.map((set) => {
    const those = clips.filter((clip) => clip.set === set);
    const fitted = tally(those.flatMap((clip) => clip.fitted), classes);
    const raw = tally(those.flatMap((clip) => clip.raw), classes);
    const of = ({ rms, bias }: { rms: number; bias: number }): string[] => (withBias ? [figure(rms), signed(bias)] : [figure(rms)]);
    return [
      title, set, figure(raw.moving.rms), figure(raw.still.rms),
      ...of(fitted.moving), String(fitted.moving.n), ...of(fitted.still), String(fitted.still.n),
      percent(fitted.unsureShare), figure(fitted.unsure.rms),
    ];
  }));
  const bias = withBias ? ['bias, °|r'] : [];
  return markdownTable([
    'angle', 'half', 'landmarks alone: moving, °|r', 'still, °|r', 'fitted: moving, °|r', ...bias, 'n|r', 'still, °|r', ...bias, 'n|r', 'flagged|r', 'flagged, °|r',
  ], cells);
}

/** Angles with a sign, and both groups that have targets. */
export const angleTable = (clips: readonly MeasuredClip[]): string => classTable(clips, [...JOINT_CLASSES.map(row), ...TOGETHER], true);

/** Whole turns, which have no bias. */
export const turnTable = (clips: readonly MeasuredClip[]): string => classTable(clips, TURN_CLASSES.map(row), false);

/** All frames of each clip, fitted, flagged or not. */
export function clipTable(clips: readonly MeasuredClip[]): string {
  return markdownTable(
    ['clip', 'half', ...JOINT_CLASSES.map((name) => `${name}, °|r`), 'hinges flagged|r', 'and their RMS, °|r'],
    clips.map(({ name, set, fitted }) => {
      const hinges = tally(fitted, HINGES);
      return [name, set, ...JOINT_CLASSES.map((one) => figure(tally(fitted, [one]).all.rms)), percent(hinges.unsureShare), figure(hinges.unsure.rms)];
    }),
  );
}
