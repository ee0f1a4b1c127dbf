/**
 * Grumm, a troll of 335 mm: short legs, arms of wire to the knees, a back of four links that share the performer's bend by
 * weights. Our own.
 */
import type { Armature, Bone, Drive, Joint } from '../armature.ts';
import { humanBody } from '../humanBody.ts';
import { plusMinus, withHumanLimits } from './human.ts';

const body = withHumanLimits(humanBody({
  pelvis: 26, abdomen: 30, chest: 44, neck: 14, head: 56, shoulderHalf: 52, upperArm: 82, forearm: 80, hand: 44,
  hipHalf: 24, thigh: 64, shank: 68, foot: 54, ankleHeight: 18,
}, false));

/** The single abdomen becomes three links; the chest is the fourth. */
const LINKS = ['loin', 'waist', 'ribs'] as const;
const bones: readonly Bone[] = body.bones.flatMap((bone): readonly Bone[] =>
  (bone.name === 'abdomen' ? LINKS.map((name) => ({ name, lengthMm: 15, along: [0, 1, 0] as const, radiusMm: 16 })) : [bone]));
const joints: readonly Joint[] = body.joints.flatMap((joint): readonly Joint[] => {
  if (joint.name === 'spine') {
    return LINKS.map((name, i) => ({
      name, parent: i === 0 ? 'pelvis' : LINKS[i - 1]!, child: name,
      limitsDeg: { forward: plusMinus(12), up: plusMinus(15), right: [-25, 12] },
    }));
  }
  if (joint.name === 'chest') return [{ ...joint, parent: 'ribs', limitsDeg: { forward: plusMinus(20), up: plusMinus(20), right: [-30, 20] } }];
  if (joint.name.endsWith('Wrist')) return [{ ...joint, kind: 'wire' }];
  return [joint];
});
const drives: readonly Drive[] = [
  { joint: 'loin', from: 'spine', weight: 1 },
  { joint: 'waist', from: 'spine', weight: 1 },
  { joint: 'ribs', from: 'chest', weight: 1 },
  { joint: 'chest', from: 'chest', weight: 2 },
];

export const GRUMM: Armature = {
  format: 'nudgebook-armature', version: 2, name: 'Grumm', totalMassG: 900,
  notes: 'To read as a giant: see the time scale offered for his apparent height.', bones, joints, drives,
};
