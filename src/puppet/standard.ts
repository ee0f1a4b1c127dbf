/**
 * The figure that is used when no other armature is given: every joint of the performer, each of the performer's kind.
 */
import { JOINT_NAMES, PERFORMER_KIND } from '../motion/joints.ts';
import type { Armature } from './armature.ts';

export const STANDARD_ARMATURE: Armature = {
  format: 'nudgebook-armature',
  version: 1,
  name: 'Standard figure',
  heightMm: 300,
  joints: JOINT_NAMES.map((name) => ({ name, kind: PERFORMER_KIND[name] })),
};
