/**
 * What is said of one clip as a whole: how much was posed, how far the landmarks lie off, and when its main joint moves.
 */
import { STATE_BRIDGED, type Motion } from '../../src/motion/motion.ts';
import { foundCount, frameCount, type Track } from '../../src/pose/track.ts';
import { bestShift } from './bestShift.ts';
import { ANGLE_NAMES, type AngleName, bodyAngles } from './bodyAngles.ts';
import { segmentsOfMotion } from './motionBody.ts';
import { type PictureError, pictureError } from './pictureError.ts';
import { timing, type TimingOfOne } from './timing.ts';
import { placeTruth, segmentsOfTruth } from './truthBody.ts';
import type { Truth } from './truthFile.ts';

export interface ClipResult {
  readonly name: string;
  readonly frames: number;
  readonly posed: number;
  /** Share of joint values that were bridged over a gap, not measured. */
  readonly bridgedShare: number;
  readonly picture: PictureError | undefined;
  /** The angle with the widest true range in the clip, its ranges [least, greatest] in degrees, and its moments. */
  readonly mainJoint: AngleName;
  readonly trueRange: Range;
  readonly measuredRange: Range;
  /** Frames by which the main joint's curve is late as a whole; `null` where no shift fits best. */
  readonly shiftFrames: number | null;
  readonly timing: readonly TimingOfOne[];
}

export type Range = readonly [least: number, greatest: number];

const rangeOf = (values: readonly number[]): Range => {
  const known = values.filter(Number.isFinite);
  return [Math.min(...known), Math.max(...known)];
};

/** Frames of truth and track belong together only if their times do, to a quarter of a frame. */
export function requireSameFrames(truth: Truth, track: Track): void {
  const frameS = truth.timesS[1]! - truth.timesS[0]!;
  const same = frameCount(track) === truth.frames && truth.timesS.every((t, i) => Math.abs(t - track.timesS[i]!) < frameS / 4);
  if (!same) throw new Error(`The clip ${truth.clip} and its truth do not have the same frames: make both anew with npm run clips.`);
}

/**
 * @param motion made of `track`, one entry a frame
 * @throws Error where truth and clip do not have the same frames
 */
export function compareClip(truth: Truth, track: Track, motion: Motion): ClipResult {
  requireSameFrames(truth, track);
  const trueAngles = truth.timesS.map((_, frame) => bodyAngles(segmentsOfTruth(placeTruth(truth, frame))));
  const width = (name: AngleName): number => {
    const [least, greatest] = rangeOf(trueAngles.map((angles) => angles[name]));
    return greatest - least;
  };
  const mainJoint = ANGLE_NAMES.reduce((a, b) => (width(b) > width(a) ? b : a));
  const told = trueAngles.map((angles) => angles[mainJoint]);
  const seen = truth.timesS.map((_, frame) => bodyAngles(segmentsOfMotion(motion, frame))[mainJoint]);
  const known = [...seen.keys()].filter((frame) => Number.isFinite(seen[frame]));
  return {
    name: truth.clip,
    frames: truth.frames,
    posed: foundCount(track),
    bridgedShare: motion.state.reduce((n, state) => n + (state === STATE_BRIDGED ? 1 : 0), 0) / motion.state.length,
    picture: pictureError(truth, track),
    mainJoint, trueRange: rangeOf(told), measuredRange: rangeOf(seen), shiftFrames: bestShift(told, seen),
    timing: timing(known.map((frame) => truth.timesS[frame]!), known.map((frame) => told[frame]!), known.map((frame) => seen[frame]!)),
  };
}
