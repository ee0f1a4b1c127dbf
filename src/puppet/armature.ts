/**
 * The puppet's skeleton as far as this version needs it: which joints it has and of what kind.
 * (Sizes, limits, masses and smallest moves join this document later; its version number makes room for them.)
 */
import type { JointKind, JointName } from '../motion/joints.ts';

export interface ArmatureJoint {
  readonly name: JointName;
  readonly kind: JointKind;
}

export interface Armature {
  readonly format: 'nudgebook-armature';
  readonly version: 1;
  readonly name: string;
  /** Height of the standing puppet, mm. */
  readonly heightMm: number;
  /** The joints it has, in any order; a joint that is left out is rigid and its turn passes on to the joints it carries. */
  readonly joints: readonly ArmatureJoint[];
}
