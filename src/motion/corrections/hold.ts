/**
 * Who corrects an elbow means the elbow. What a correction is not about is held near where the fit had it, so that the trunk does
 * not turn a little to make it true; it gives only where the correction cannot be met otherwise.
 */
import type { Figure } from '../fit/figure.ts';
import type { PinRow } from '../fit/handSet.ts';
import { BONE_COUNT, FIGURE_LANDMARKS, LIMB_COUNT, LIMB_NAMES, POINT, ROOT_AT, type LimbName } from '../fit/layout.ts';
import { LANDMARK, type LandmarkName } from '../../pose/landmarks.ts';
import type { CorrectableJoint } from './angleMeasures.ts';

/** A part of the figure that a correction may move: a limb, or the trunk with all that hangs on it. */
export type Part = LimbName | 'trunk';

/** Pinned frames move by less than anybody sees. */
const FAST = 1e-4;
/** Held parts give by about this much: 3° of the hips, 1° of a bone (chosen). The root gives more to a leg, on which it stands. */
const TRUNK_M = 0.004;
const ROOT_M = 0.005;
const ROOT_OVER_LEG_M = 0.02;
const DIRECTION_RAD = 0.02;

/** The part that a landmark belongs to; `null` for what rides on the figure. */
export function partOfLandmark(name: LandmarkName): Part | null {
  const point = FIGURE_LANDMARKS.indexOf(LANDMARK[name]);
  if (point < 0) return null;
  if (point === POINT.leftElbow || point === POINT.leftWrist) return 'leftArm';
  if (point === POINT.rightElbow || point === POINT.rightWrist) return 'rightArm';
  if (point === POINT.leftKnee || point === POINT.leftAnkle) return 'leftLeg';
  if (point === POINT.rightKnee || point === POINT.rightAnkle) return 'rightLeg';
  return 'trunk';
}

const PART_OF_JOINT: Readonly<Record<CorrectableJoint, Part | null>> = {
  leftElbow: 'leftArm', leftShoulder: 'leftArm', rightElbow: 'rightArm', rightShoulder: 'rightArm',
  leftKnee: 'leftLeg', leftHip: 'leftLeg', rightKnee: 'rightLeg', rightHip: 'rightLeg', spine: 'trunk', neck: null, head: null,
};
export const partOfJoint = (joint: CorrectableJoint): Part | null => PART_OF_JOINT[joint];

/** Sigmas of a {@link PinRow} that holds everything fast. */
export const heldFast = (): Float64Array => new Float64Array(12 + BONE_COUNT).fill(FAST);

/** Sigmas that leave the parts free and hold the rest; with the trunk everything is free, for all hangs on it. */
export function holdAllBut(parts: ReadonlySet<Part>): Float64Array {
  const sigmas = new Float64Array(12 + BONE_COUNT).fill(TRUNK_M, 0, 12).fill(DIRECTION_RAD, 12);
  if (parts.has('trunk')) return sigmas.fill(Number.POSITIVE_INFINITY);
  sigmas.fill(parts.has('leftLeg') || parts.has('rightLeg') ? ROOT_OVER_LEG_M : ROOT_M, ROOT_AT, ROOT_AT + 3);
  for (let limb = 0; limb < LIMB_COUNT; limb++) {
    if (parts.has(LIMB_NAMES[limb]!)) sigmas.fill(Number.POSITIVE_INFINITY, 12 + limb * 2, 14 + limb * 2);
  }
  return sigmas;
}

/** The row that holds a frame of a figure where it is. */
export function pinAt(figure: Figure, frame: number, sigmas: Float64Array): PinRow {
  const width = BONE_COUNT * 3;
  return { frame, free: figure.free.slice(frame * 12, frame * 12 + 12), directions: figure.directions.slice(frame * width, (frame + 1) * width), sigmas };
}
