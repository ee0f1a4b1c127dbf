/**
 * What is compared, as classes: the angles of `bodyAngles.ts`, and the whole turns of joints that are no hinges.
 */
import type { JointName } from '../../src/motion/joints.ts';
import { ANGLE_NAMES, type AngleName, CLASS_OF, JOINT_CLASSES } from './bodyAngles.ts';

/** Angles with a sign, then turns: how far the measured turn is from the true one, never negative. */
export const TURN_CLASSES = ['shoulder, whole turn', 'hip, whole turn', 'forearm roll', 'wrist, whole turn', 'ankle, whole turn'] as const;
export type TurnClass = (typeof TURN_CLASSES)[number];

export const MEASURE_CLASSES = [...JOINT_CLASSES, ...TURN_CLASSES] as const;
export type MeasureClass = (typeof MEASURE_CLASSES)[number];

/** One curve of a clip: what it is, and the joint whose doubts count for it. */
export interface Measure {
  readonly measureClass: MeasureClass;
  readonly joint: JointName;
}

const JOINT_OF: Readonly<Record<AngleName, JointName>> = {
  leftElbow: 'leftElbow', rightElbow: 'rightElbow', leftKnee: 'leftKnee', rightKnee: 'rightKnee',
  leftShoulder: 'leftShoulder', rightShoulder: 'rightShoulder', leftHip: 'leftHip', rightHip: 'rightHip',
  trunk: 'chest', headNod: 'head', headTurn: 'head',
};

export const ANGLE_MEASURES: Readonly<Record<AngleName, Measure>> = Object.fromEntries(
  ANGLE_NAMES.map((name) => [name, { measureClass: CLASS_OF[name], joint: JOINT_OF[name] }]),
) as unknown as Record<AngleName, Measure>;

/** Classes that targets are set for together. */
export const HINGES: readonly MeasureClass[] = ['elbow', 'knee'];
export const SHOULDERS_AND_HIPS: readonly MeasureClass[] = ['shoulder elevation', 'hip flexion'];
