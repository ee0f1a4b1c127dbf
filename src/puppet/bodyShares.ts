/**
 * Which part of a body a bone is, and what is published of such parts.
 *
 * Masses in percent of the whole and the place of the mass along the segment: de Leva 1996, J Biomech 29(9):1223-1230, table 4, males
 * (segment ends as in the table: mid-hip, omphalion, xiphion, suprasternale for the trunk; shank to ankle centre). The table's
 * head reaches down to the seventh neck vertebra; of its 6.94 % we give the neck 1.2 (our choice, by length). A foot starts
 * at the ankle here, not at the heel, so its mass is taken at a third of the way (ours).
 */
import type { JointName } from '../motion/joints.ts';

export const BODY_PARTS = [
  'pelvis', 'abdomen', 'chest', 'neck', 'head', 'clavicle', 'upperArm', 'forearm', 'hand', 'thigh', 'shank', 'foot',
] as const;
export type BodyPart = (typeof BODY_PARTS)[number];

/** Body mass and stature of the reference males of the same paper. */
export const REFERENCE_MASS_G = 73_000;
export const REFERENCE_HEIGHT_MM = 1741;

/** `percent` of the whole body, one side; `at` from the joint nearer the pelvis (0) to the far end (1). */
export const PART_SHARES: Readonly<Record<BodyPart, { readonly percent: number; readonly at: number }>> = {
  pelvis: { percent: 11.17, at: 1 - 0.6115 },
  abdomen: { percent: 16.33, at: 1 - 0.4502 },
  chest: { percent: 15.96, at: 1 - 0.2999 },
  neck: { percent: 1.2, at: 0.5 },
  head: { percent: 5.74, at: 1 - 0.5002 },
  clavicle: { percent: 0, at: 0.5 },
  upperArm: { percent: 2.71, at: 0.5772 },
  forearm: { percent: 1.62, at: 0.4574 },
  hand: { percent: 0.61, at: 0.3624 },
  thigh: { percent: 14.16, at: 0.4095 },
  shank: { percent: 4.33, at: 0.4395 },
  foot: { percent: 1.37, at: 1 / 3 },
};

/** Half thickness as a part of the length, for drawing a bone that nobody measured across; by eye, ours. */
export const PART_RADIUS: Readonly<Record<BodyPart, number>> = {
  pelvis: 0.7, abdomen: 0.42, chest: 0.55, neck: 0.35, head: 0.36, clavicle: 0.13,
  upperArm: 0.13, forearm: 0.12, hand: 0.17, thigh: 0.15, shank: 0.11, foot: 0.14,
};

const PART_OF_JOINT: Readonly<Record<string, BodyPart>> = {
  pelvis: 'pelvis', spine: 'abdomen', chest: 'chest', neck: 'neck', head: 'head', clavicle: 'clavicle', shoulder: 'upperArm',
  elbow: 'forearm', wrist: 'hand', hip: 'thigh', knee: 'shank', ankle: 'foot',
};
const PART_OF_WORD: Readonly<Record<string, BodyPart>> = {
  pelvis: 'pelvis', abdomen: 'abdomen', spine: 'abdomen', belly: 'abdomen', chest: 'chest', neck: 'neck', head: 'head', clavicle: 'clavicle',
  upperarm: 'upperArm', forearm: 'forearm', hand: 'hand', thigh: 'thigh', shank: 'shank', foot: 'foot',
};

/** The part that a bone's name says ("leftUpperArm", "left shank"), or `null`. */
export function partOfName(bone: string): BodyPart | null {
  const word = bone.toLowerCase().replace(/[^a-z]/g, '').replace(/^(left|right)/, '');
  return Object.hasOwn(PART_OF_WORD, word) ? PART_OF_WORD[word]! : null;
}

/** The part that a performer's joint turns. */
export function partOfJoint(joint: JointName): BodyPart {
  return PART_OF_JOINT[joint.replace(/^(left|right)/, '').toLowerCase()]!;
}

/** 'left' or 'right' by the beginning of a name, or `null`. */
export function sideOfName(name: string): 'left' | 'right' | null {
  return /^\W*left/i.test(name) ? 'left' : /^\W*right/i.test(name) ? 'right' : null;
}
