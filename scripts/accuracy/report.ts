/**
 * The results as Markdown: the same text on the terminal and in the document.
 */
import { markdownTable } from '../bench/document/markdownTable.ts';
import { type Agreement, agreement, type Pair } from './agreement.ts';
import { type AngleName, JOINT_CLASSES, type JointClass } from './bodyAngles.ts';
import { type ClassResult, type ClipResult, type Range, SHIFT_FROM_DEG } from './compareClip.ts';
import { MOVING_DEG_PER_S } from './moving.ts';
import type { ModelSize } from '../../src/pose/track.ts';
import { briefReport } from './brief.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { frameOf } from './timing.ts';

const NONE = '–';
const signed = (value: number, digits = 1): string => {
  const text = value.toFixed(digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text.replace(/^-(0(\.0*)?)$/, '$1');
};
const orNone = (value: number | null | undefined, print: (value: number) => string): string =>
  value === null || value === undefined || !Number.isFinite(value) ? NONE : print(value);
const whole = (value: number): string => value.toFixed(0).replace(/^-0$/, '0');
const rangeText = ([least, greatest]: Range): string => `${whole(least)} to ${whole(greatest)}`;

function figures(found: Agreement | undefined): string[] {
  return found === undefined ? [NONE, NONE, '0'] : [found.rmse.toFixed(1), signed(found.bias), String(found.n)];
}

/** The side that stands for a class, where there are two. */
function sideOf(name: AngleName): string {
  if (name.startsWith('left')) return ' (left)';
  return name.startsWith('right') ? ' (right)' : '';
}

function angleTable(clips: readonly ClipResult[]): string {
  const rows = clips.flatMap((clip) => JOINT_CLASSES.map((joint) => {
    const found: ClassResult = clip.classes[joint];
    return [
      clip.name, joint, `${rangeText(found.trueRange)}${sideOf(found.widest)}`, rangeText(found.measuredRange),
      orNone(found.correlation, (r) => r.toFixed(3)), orNone(found.shiftFrames, (v) => signed(v)),
      ...figures(agreement(found.moving)), ...figures(agreement(found.still)),
    ];
  }));
  const all = (joint: JointClass, pick: (found: ClassResult) => readonly Pair[]): Pair[] => clips.flatMap((clip) => pick(clip.classes[joint]));
  const sums = JOINT_CLASSES.map((joint) => ['all clips', joint, '', '', '', '',
    ...figures(agreement(all(joint, (found) => found.moving))), ...figures(agreement(all(joint, (found) => found.still)))]);
  return markdownTable(
    ['clip', 'angle', 'true range, °', 'measured range, °', 'r|r', 'late, frames|r', 'moving: RMSE, °|r', 'bias, °|r', 'n|r', 'still: RMSE, °|r', 'bias, °|r', 'n|r'],
    [...rows, ...sums],
  );
}

function clipTable(clips: readonly ClipResult[]): string {
  return markdownTable(
    ['clip', 'frames|r', 'posed|r', 'missed|r', 'joint values bridged|r', 'landmarks off in the picture: mean, px|r', 'of body height|r', '95 %, px|r', 'worst, px|r'],
    clips.map(({ name, frames, posed, bridgedShare, picture }) => [
      name, String(frames), String(posed), String(frames - posed), `${(100 * bridgedShare).toFixed(1)} %`,
      orNone(picture?.meanPx, (v) => v.toFixed(1)), orNone(picture?.meanOfHeight, (v) => `${(100 * v).toFixed(1)} %`),
      orNone(picture?.p95Px, (v) => v.toFixed(1)), orNone(picture?.worstPx, (v) => v.toFixed(1)),
    ]),
  );
}

function timingTable(clips: readonly ClipResult[], timesOf: (name: string) => readonly number[]): string {
  const rows = clips.flatMap((clip) => clip.timing.map((one, i) => {
    const at = (timeS: number | undefined): string => orNone(timeS, (t) => frameOf(timesOf(clip.name), t).toFixed(2));
    const off = (frames: number | null): string => orNone(frames, (v) => signed(v, 2));
    return [
      clip.name, `${clip.mainJoint} ${i + 1}`, at(one.truth.peakS), at(one.measured?.peakS), off(one.peakOffFrames),
      `${one.truth.heldS.toFixed(2)}`, off(one.riseOffFrames), off(one.fallOffFrames), off(one.lagFrames),
    ];
  }));
  return markdownTable(
    ['clip', 'main joint, excursion', 'extreme at frame: true|r', 'measured|r', 'off, frames|r', 'held within 1°, s|r', 'rise off, frames|r', 'fall off, frames|r', 'lag, frames|r'],
    rows,
  );
}

/** To come: see briefReport. */
export function fullReport(clips: readonly MeasuredClip[], model: ModelSize, missing: string | undefined): string {
  return [missing ?? '', model, briefReport(clips, model)].join('\n');
}

/**
 * @param clips results in the order in which they shall stand
 * @param how one line on how they were made: model, cut-off, clips
 * @param timesOf frame times of a clip by name
 */
export function accuracyReport(clips: readonly ClipResult[], how: string, timesOf: (name: string) => readonly number[]): string {
  return [
    how,
    `Angles, degrees. A frame is moving where the true angle changes faster than ${MOVING_DEG_PER_S}° a second. Left and right are counted together, except in the ranges, in r (correlation of the whole curve) and in how late the curve is as a whole (for angles that move ${SHIFT_FROM_DEG}° or more), which belong to the side that moves farther.\n\n${angleTable(clips)}`,
    `Frames and landmarks.\n\n${clipTable(clips)}`,
    `Timing of the joint that moves farthest in each clip. Positive is late.\n\n${timingTable(clips, timesOf)}`,
  ].join('\n\n');
}
