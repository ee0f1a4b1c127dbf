/**
 * Joints that err alike are judged alike: left and right of one kind, and joints that share one measured turn.
 */
import { JOINT, JOINT_NAMES, type JointName } from '../joints.ts';
import type { Vec3 } from '../../numeric/vector3.ts';

export const ERROR_CLASSES = ['pelvis', 'spine', 'head', 'shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
export type ErrorClass = (typeof ERROR_CLASSES)[number];

/**
 * Classes whose segment points somewhere and also turns about its own bone. A hinge has no such turn of its own (the bone above it
 * has it), and of pelvis, trunk and head the error speaks of all three axes anyway.
 */
export const TURN_CLASSES = ['shoulder', 'wrist', 'hip', 'ankle'] as const satisfies readonly ErrorClass[];
export type TurnClass = (typeof TURN_CLASSES)[number];

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
  /** Index in {@link TURN_CLASSES}; -1 for a joint without a turn about its own bone. */
  readonly turnClass: number;
  /** Unit vector along its bone in the axes of its segment (at rest: of the stage); only of joints with such a turn. */
  readonly bone: Vec3 | null;
  /** Elbow or knee of its limb, index in JOINT_NAMES: how far it is bent shows the limb's plane; -1 for trunk and head. */
  readonly hinge: number;
}

const BONES: Readonly<Partial<Record<ErrorClass, readonly (0 | 1)[]>>> = {
  shoulder: [0], elbow: [0, 1], wrist: [1], hip: [0], knee: [0, 1], ankle: [1],
};

const ALONG: Vec3 = [0, 1, 0];
/** The foot's bone points forward. */
const FORWARD: Vec3 = [1, 0, 0];

/** In the order of JOINT_NAMES. */
export const JOINT_CLASS: readonly JointInClass[] = JOINT_NAMES.map((name) => {
  const errorClass = classOf(name);
  const bones = errorClass === null ? [] : BONES[errorClass] ?? [];
  const isLeg = errorClass === 'hip' || errorClass === 'knee' || errorClass === 'ankle';
  const turnClass = TURN_CLASSES.findIndex((one) => one === errorClass);
  const side = name.startsWith('left') ? 'left' : 'right';
  return {
    errorClass: errorClass === null ? -1 : ERROR_CLASSES.indexOf(errorClass),
    share: errorClass === 'spine' || errorClass === 'head' ? 0.5 : 1,
    limb: bones.length === 0 ? -1 : (isLeg ? 2 : 0) + (side === 'left' ? 0 : 1),
    bones,
    turnClass,
    bone: turnClass < 0 ? null : errorClass === 'ankle' ? FORWARD : ALONG,
    hinge: bones.length === 0 ? -1 : JOINT[`${side}${isLeg ? 'Knee' : 'Elbow'}`],
  };
});
