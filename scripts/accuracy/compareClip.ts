/**
 * Everything that is said of one clip: the truth, the track and the motion made of it, held against each other.
 */
import type { Motion } from '../../src/motion/motion.ts';
import { STATE_BRIDGED } from '../../src/motion/motion.ts';
import { foundCount, frameCount, type Track } from '../../src/pose/track.ts';
import { type Agreement, agreement, type Pair } from './agreement.ts';
import { bestShift } from './bestShift.ts';
import { ANGLE_NAMES, type AngleName, bodyAngles, CLASS_OF, JOINT_CLASSES, type JointClass } from './bodyAngles.ts';
import { segmentsOfMotion } from './motionBody.ts';
import { movingFrames } from './moving.ts';
import { type PictureError, pictureError } from './pictureError.ts';
import { timing, type TimingOfOne } from './timing.ts';
import { placeTruth, segmentsOfTruth } from './truthBody.ts';
import type { Truth } from './truthFile.ts';

/** True and measured curve of one angle, degrees; NaN where the measurement has none. */
export interface Curve {
  readonly truth: readonly number[];
  readonly measured: readonly number[];
}

/** [least, greatest]. */
export type Range = readonly [least: number, greatest: number];

/** A curve must move this far in truth, degrees, for its lag to be told: below, the model's own errors are as large. */
export const SHIFT_FROM_DEG = 20;

export interface ClassResult {
  /** The side that moves farther in truth stands for the class where only one curve can be told. */
  readonly widest: AngleName;
  readonly trueRange: Range;
  readonly measuredRange: Range;
  /** Of that side's whole curve. */
  readonly correlation: number | null;
  /** Frames by which that curve is late as a whole; `null` where the true angle moves less than {@link SHIFT_FROM_DEG}. */
  readonly shiftFrames: number | null;
  /** Pairs of both sides, in frames in which the true angle moves and in which it rests. */
  readonly moving: readonly Pair[];
  readonly still: readonly Pair[];
}

export interface ClipResult {
  readonly name: string;
  readonly frames: number;
  readonly posed: number;
  /** Share of joint values that were bridged over a gap, not measured. */
  readonly bridgedShare: number;
  readonly picture: PictureError | undefined;
  readonly classes: Readonly<Record<JointClass, ClassResult>>;
  /** The angle with the widest true range in the clip, and its moments. */
  readonly mainJoint: AngleName;
  readonly timing: readonly TimingOfOne[];
}

const rangeOf = (values: readonly number[]): Range => {
  const known = values.filter(Number.isFinite);
  return [Math.min(...known), Math.max(...known)];
};
const width = ([least, greatest]: Range): number => greatest - least;

function curvesOf(truth: Truth, motion: Motion): Record<AngleName, Curve> {
  const trueAngles = truth.timesS.map((_, frame) => bodyAngles(segmentsOfTruth(placeTruth(truth, frame))));
  const measured = truth.timesS.map((_, frame) => bodyAngles(segmentsOfMotion(motion, frame)));
  const curves: Partial<Record<AngleName, Curve>> = {};
  for (const name of ANGLE_NAMES) {
    curves[name] = { truth: trueAngles.map((angles) => angles[name]), measured: measured.map((angles) => angles[name]) };
  }
  return curves as Record<AngleName, Curve>;
}

function classResult(joint: JointClass, curves: Readonly<Record<AngleName, Curve>>, timesS: readonly number[]): ClassResult {
  const names = ANGLE_NAMES.filter((name) => CLASS_OF[name] === joint);
  const widest = names.reduce((a, b) => (width(rangeOf(curves[b].truth)) > width(rangeOf(curves[a].truth)) ? b : a));
  const moving: Pair[] = [];
  const still: Pair[] = [];
  for (const name of names) {
    const { truth, measured } = curves[name];
    const moves = movingFrames(timesS, truth);
    truth.forEach((value, frame) => (moves[frame] ? moving : still).push([value, measured[frame]!]));
  }
  const { truth, measured } = curves[widest];
  const whole: Agreement | undefined = agreement(truth.map((value, frame) => [value, measured[frame]!]));
  const trueRange = rangeOf(truth);
  return {
    widest, trueRange, measuredRange: rangeOf(measured), correlation: whole?.correlation ?? null,
    shiftFrames: width(trueRange) >= SHIFT_FROM_DEG ? bestShift(truth, measured) : null,
    moving, still,
  };
}

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
  const curves = curvesOf(truth, motion);
  const mainJoint = ANGLE_NAMES.reduce((a, b) => (width(rangeOf(curves[b].truth)) > width(rangeOf(curves[a].truth)) ? b : a));
  const main = curves[mainJoint];
  const known = main.measured.map((value, i) => (Number.isFinite(value) ? i : -1)).filter((i) => i >= 0);
  return {
    name: truth.clip,
    frames: truth.frames,
    posed: foundCount(track),
    bridgedShare: motion.state.reduce((n, state) => n + (state === STATE_BRIDGED ? 1 : 0), 0) / motion.state.length,
    picture: pictureError(truth, track),
    classes: Object.fromEntries(JOINT_CLASSES.map((joint) => [joint, classResult(joint, curves, truth.timesS)])) as Record<JointClass, ClassResult>,
    mainJoint,
    timing: timing(known.map((i) => truth.timesS[i]!), known.map((i) => main.truth[i]!), known.map((i) => main.measured[i]!)),
  };
}
