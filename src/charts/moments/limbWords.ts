/** Limbs as people call them. */
import type { MomentsOf } from '../../timing/moments/moments.ts';

export const LIMB_WORDS: Readonly<Record<MomentsOf, string>> = {
  body: 'whole body', head: 'head', shoulders: 'shoulders', hips: 'hips', leftArm: 'left arm', rightArm: 'right arm', leftLeg: 'left leg', rightLeg: 'right leg',
};
