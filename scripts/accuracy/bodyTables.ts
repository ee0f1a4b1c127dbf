/**
 * What is no angle, as Markdown: feet, bones, path, camera; frames and landmarks; moments.
 */
import { markdownTable } from '../bench/document/markdownTable.ts';
import { compareClip, type ClipResult } from './compareClip.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { frameOf } from './timing.ts';
import { figure, percent, signed } from './words.ts';

export function bodyTable(clips: readonly MeasuredClip[]): string {
  return markdownTable(
    [
      'clip', 'half', 'a standing foot strays, of body height|r', 'a bone changes|r', 'hips off: depth, cm|r', 'height, cm|r', 'across, cm|r',
      'camera off (told): pitch, °|r', 'roll, °|r', 'contacts that are true|r', 'stands that are found|r',
    ],
    clips.map(({ name, set, checks: { slideOfHeight, boneSpread, rootM, pitchDeg, rollDeg, pitchSigmaDeg, rollSigmaDeg, contact } }) => [
      name, set, percent(slideOfHeight, 1), percent(boneSpread, 2), ...rootM.map((m) => figure(100 * m)), `${signed(pitchDeg)} (± ${figure(pitchSigmaDeg)})`, `${signed(rollDeg)} (± ${figure(rollSigmaDeg)})`,
      percent(contact.right / contact.found), percent(contact.caught / contact.standing),
    ]),
  );
}

export const compared = (clips: readonly MeasuredClip[]): readonly ClipResult[] =>
  clips.map(({ truth, track, fittedMotion }) => compareClip(truth, track, fittedMotion));

export function frameTable(results: readonly ClipResult[]): string {
  return markdownTable(
    ['clip', 'frames|r', 'missed|r', 'joint values bridged|r', 'landmarks off in the picture: mean, px|r', 'of body height|r', '95 %, px|r', 'worst, px|r'],
    results.map(({ name, frames, posed, bridgedShare, picture }) => [
      name, String(frames), String(frames - posed), percent(bridgedShare, 1),
      figure(picture?.meanPx), percent(picture?.meanOfHeight, 1), figure(picture?.p95Px), figure(picture?.worstPx),
    ]),
  );
}

/** @param timesOf frame times of a clip by name */
export function timingTable(results: readonly ClipResult[], timesOf: (name: string) => readonly number[]): string {
  const range = ([least, greatest]: readonly [number, number]): string => `${figure(least, 0)} to ${figure(greatest, 0)}`;
  return markdownTable(
    [
      'clip', 'main joint, excursion', 'true range, °|r', 'measured, °|r', 'late as a whole, frames|r', 'extreme at frame: true|r', 'measured|r',
      'off, frames|r', 'held within 1°, s|r', 'rise off, frames|r', 'fall off, frames|r', 'lag, frames|r',
    ],
    results.flatMap((clip) => clip.timing.map((one, i) => {
      const at = (timeS: number | undefined): string => (timeS === undefined ? figure(undefined) : figure(frameOf(timesOf(clip.name), timeS), 2));
      return [
        clip.name, `${clip.mainJoint} ${i + 1}`, range(clip.trueRange), range(clip.measuredRange), signed(clip.shiftFrames), at(one.truth.peakS), at(one.measured?.peakS),
        signed(one.peakOffFrames, 2), figure(one.truth.heldS, 2), signed(one.riseOffFrames, 2), signed(one.fallOffFrames, 2), signed(one.lagFrames, 2),
      ];
    })),
  );
}

/** An extreme that is held for less than this is a moment, s. */
const SHARP_S = 0.15;
const WITHIN_FRAMES = 0.25;

/** How many of the extremes that are moments lie where they should. */
export function extremesWord(results: readonly ClipResult[]): string {
  const sharp = results.flatMap((clip) => clip.timing).filter(({ truth }) => truth.heldS < SHARP_S);
  const within = sharp.filter(({ peakOffFrames }) => peakOffFrames !== null && Math.abs(peakOffFrames) <= WITHIN_FRAMES);
  return `Of ${sharp.length} extremes that are held for less than ${SHARP_S} s, ${within.length} lie within a quarter of a frame of the true one.`;
}
