/**
 * What can be put right by hand on the picture: the joints of the fitted figure, and three angles of trunk and head that
 * have no joint of their own there.
 */
import { CORRECTABLE_JOINTS, type CorrectableJoint } from '../../motion/corrections/angleMeasures.ts';
import { FIGURE_LANDMARKS, LIMB_NAMES, type LimbName } from '../../motion/fit/layout.ts';
import { plainName } from '../../book/describeCorrections.ts';
import { LANDMARK_NAMES, type LandmarkName } from '../../pose/landmarks.ts';

/** A joint by its landmark, or `spine`, `neck`, `head` for what has only an angle. */
export type Correctable = LandmarkName | 'spine' | 'neck' | 'head';

/** The twelve joints that can be put somewhere else in the picture, in the order of the fit's figure. */
export const PLACEABLE: readonly LandmarkName[] = FIGURE_LANDMARKS.map((landmark) => LANDMARK_NAMES[landmark]!);

/** Everything that can be chosen, in the order in which a key goes through it: from the head down, left before right. */
export const CORRECTABLE: readonly Correctable[] = ['head', 'neck', 'spine', ...PLACEABLE];

/** The joint whose angle can be typed, or `null` for the end of a limb. */
export function angleJoint(name: Correctable): CorrectableJoint | null {
  return CORRECTABLE_JOINTS.find((joint) => joint === name) ?? null;
}

export function isPlaceable(name: Correctable): name is LandmarkName {
  return (PLACEABLE as readonly string[]).includes(name);
}

/** The limb a joint belongs to, and which of its bones a turn in depth means: the joint at a bone's far end means that bone. */
export function limbOf(name: Correctable): { readonly limb: LimbName; readonly bone: 'upper' | 'lower' | 'both' } | null {
  const at = PLACEABLE.indexOf(name as LandmarkName);
  if (at < 0) return null;
  const side = at % 2;
  const limb = LIMB_NAMES[(at < 6 ? 0 : 2) + side]!;
  const along = Math.floor((at % 6) / 2);
  return { limb, bone: along === 0 ? 'both' : along === 1 ? 'upper' : 'lower' };
}

/** A joint in a person's words. */
export function correctableWords(name: Correctable): string {
  return plainName(name);
}
