/**
 * A compact summary for whoever tunes constants: one line a class, one line a clip.
 */
import { HINGES, MEASURE_CLASSES, SHOULDERS_AND_HIPS } from './measures.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { type Rms, tally, type Tally } from './tally.ts';
import { straightLegErrors } from './targets.ts';
import { rmsOf } from './tally.ts';

const cell = (value: number, width: number, digits = 1): string => (Number.isFinite(value) ? value.toFixed(digits) : '–').padStart(width);
const withBias = ({ rms, bias, n }: Rms): string => `${cell(rms, 6)} ${cell(bias, 6)} ${String(n).padStart(5)}`;

function classLine(name: string, fitted: Tally, raw: Tally): string {
  return `${name.padEnd(24)}|${withBias(fitted.moving)} |${withBias(fitted.still)} |${withBias(fitted.unsure)} |${cell(100 * fitted.unsureShare, 5, 0)} |${cell(fitted.all.rms, 6)} |${cell(raw.all.rms, 6)}`;
}

function clipLine(clip: MeasuredClip): string {
  const t = (classes: Parameters<typeof tally>[1]): Tally => tally(clip.fitted, classes);
  const all = (name: (typeof MEASURE_CLASSES)[number]): string => cell(t([name]).all.rms, 6);
  const { checks } = clip;
  return [
    clip.name.padEnd(18), all('elbow'), all('knee'), all('shoulder elevation'), all('hip flexion'), all('trunk lean'), all('head nod'), all('head turn'), ' |',
    cell(t(HINGES).moving.rms, 6), cell(t(HINGES).still.rms, 6), cell(100 * t(HINGES).unsureShare, 5, 0), ' |',
    cell(rmsOf(straightLegErrors(clip)).rms, 6), cell(100 * checks.slideOfHeight, 7), cell(checks.pitchDeg, 7), cell(checks.rollDeg, 6), ' |',
    ...checks.rootM.map((m) => cell(100 * m, 6)), ' |', cell((100 * checks.contact.right) / checks.contact.found, 5, 0), cell((100 * checks.contact.caught) / checks.contact.standing, 5, 0),
  ].join('');
}

/** @param clips of one half (or both), measured with one model */
export function briefReport(clips: readonly MeasuredClip[], title: string): string {
  const fitted = clips.flatMap((clip) => clip.fitted);
  const raw = clips.flatMap((clip) => clip.raw);
  const line = (name: string, classes: Parameters<typeof tally>[1]): string => classLine(name, tally(fitted, classes), tally(raw, classes));
  return [
    `${title}: ${clips.length} clips`,
    'fitted                  | moving: rms, bias, n |  still: rms, bias, n | unsure: rms, bias, n| % un | all  | raw all',
    line('HINGES', HINGES), line('SHOULDERS AND HIPS', SHOULDERS_AND_HIPS),
    ...MEASURE_CLASSES.map((name) => line(name, [name])),
    `straight standing legs: rms ${rmsOf(clips.flatMap(straightLegErrors)).rms.toFixed(1)}, bias ${rmsOf(clips.flatMap(straightLegErrors)).bias.toFixed(1)}`,
    '',
    'all frames, rms, °  elbow  knee  should hip   trunk  nod   turn  | hinges: mov still %uns | straight slide% pitch  roll  | root cm: depth, height, across | contact: precision, recall %',
    ...clips.map(clipLine),
  ].join('\n');
}
