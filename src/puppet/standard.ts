/**
 * The figure that is used when no other armature is given: every joint of the performer, each of the performer's kind,
 * 300 mm tall in the proportions of `humanBody.ts`.
 */
import type { Armature } from './armature.ts';
import { humanArmature, PROPORTIONS, type HumanMeasures } from './humanBody.ts';

const HEIGHT_MM = 300;

export const STANDARD_ARMATURE: Armature = humanArmature('Standard figure', Object.fromEntries(
  Object.entries(PROPORTIONS).map(([measure, share]) => [measure, Math.round(share * HEIGHT_MM * 100) / 100]),
) as unknown as HumanMeasures);
