/**
 * Joints that err alike are judged alike: left and right of one kind, and joints that share one measured turn.
 */
import { JOINT_NAMES, type JointName } from '../joints.ts';

export const ERROR_CLASSES = ['pelvis', 'spine', 'head', 'shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
export type ErrorClass = (typeof ERROR_CLASSES)[number];

function classOf(name: JointName): ErrorClass | null {
  if (name === 'pelvis') return 'pelvis';
  if (name === 'spine' || name === 'chest') return 'spine';
  if (name === 'neck' || name === 'head') return 'head';
  const part = name.replace(/^(left|right)/, '').toLowerCase();
  return ERROR_CLASSES.find((one) => one === part) ?? null;
}

/** What the error model needs to know of a joint. */
export interface JointInClass {
  /** Index in {@link ERROR_CLASSES}; -1 for a joint that is not observable. */
  readonly errorClass: number;
  /** The joint's part of the class's error: joints that share one turn half and half have half of its error each. */
  readonly share: number;
  /** Limb in the order of FittedBody, by the performer's own side; -1 for trunk and head. */
  readonly limb: number;
  /** Bones of that limb (0 upper, 1 lower) whose lie against the lens matters. */
  readonly bones: readonly (0 | 1)[];
}

const BONES: Readonly<Partial<Record<ErrorClass, readonly (0 | 1)[]>>> = {
  shoulder: [0], elbow: [0, 1], wrist: [1], hip: [0], knee: [0, 1], ankle: [1],
};

/** In the order of JOINT_NAMES. */
export const JOINT_CLASS: readonly JointInClass[] = JOINT_NAMES.map((name) => {
  const errorClass = classOf(name);
  const bones = errorClass === null ? [] : BONES[errorClass] ?? [];
  const isLeg = errorClass === 'hip' || errorClass === 'knee' || errorClass === 'ankle';
  return {
    errorClass: errorClass === null ? -1 : ERROR_CLASSES.indexOf(errorClass),
    share: errorClass === 'spine' || errorClass === 'head' ? 0.5 : 1,
    limb: bones.length === 0 ? -1 : (isLeg ? 2 : 0) + (name.startsWith('left') ? 0 : 1),
    bones,
  };
});
