/**
 * Marla, the puppet of the demo: 280 mm tall, runs a night bakery. Her shoulders sit in the chest block, so she has no
 * clavicles; every other joint is as in the performer.
 */
import { JOINT_NAMES, PERFORMER_KIND } from '../motion/joints.ts';
import type { Armature } from './armature.ts';

export const MARLA: Armature = {
  format: 'nudgebook-armature',
  version: 1,
  name: 'Marla',
  heightMm: 280,
  joints: JOINT_NAMES.filter((name) => !name.endsWith('Clavicle')).map((name) => ({ name, kind: PERFORMER_KIND[name] })),
};
