/**
 * Weights of the bones that nobody weighed.
 */
import type { Bone } from './armature.ts';
import { PART_SHARES, REFERENCE_HEIGHT_MM, REFERENCE_MASS_G, type BodyPart } from './bodyShares.ts';
import type { CompleteBone } from './complete.ts';

/** A gram for each cubic centimetre, as water, flesh and most casting rubbers about have. */
const GRAMS_PER_MM3 = 0.001;

/**
 * Mass of each bone, grams, and where it sits along it.
 *
 * Bones without a given mass get shares of what the total leaves: by the published percentages, where several bones are one
 * part by their lengths; a bone that is no part of a human body by its volume against a person's of this height.
 *
 * @param asked the bones of the document, in the order of `bones`
 * @param heightMm standing height at rest
 */
export function shareMasses(
  asked: readonly Bone[], bones: readonly CompleteBone[], parts: readonly (BodyPart | null)[], totalMassG: number | undefined, heightMm: number,
): readonly { readonly massG: number; readonly massAt: number }[] {
  const personG = REFERENCE_MASS_G * (heightMm / REFERENCE_HEIGHT_MM) ** 3;
  // bones that are one part of one side: an arm's two halves, a spine of five links
  const key = (p: number): string => `${parts[p]} ${/^\W*(left|right)/i.exec(bones[p]!.name)?.[0]?.toLowerCase() ?? ''}`;
  const partLength = new Map<string, number>();
  bones.forEach(({ lengthMm }, p) => partLength.set(key(p), (partLength.get(key(p)) ?? 0) + lengthMm));
  const percent = bones.map(({ lengthMm, radiusMm }, p): number => {
    const part = parts[p]!;
    if (part !== null) return PART_SHARES[part].percent * (lengthMm / partLength.get(key(p))!);
    return (100 * Math.PI * radiusMm ** 2 * lengthMm * GRAMS_PER_MM3) / personG;
  });
  const given = asked.reduce((sum, bone) => sum + (bone.massG ?? 0), 0);
  const open = percent.reduce((sum, share, p) => (asked[p]!.massG === undefined ? sum + share : sum), 0);
  const restG = totalMassG === undefined ? (personG * open) / 100 : Math.max(0, totalMassG - given);
  return bones.map((_, p) => {
    const part = parts[p]!;
    return {
      massG: asked[p]!.massG ?? (open > 0 ? (restG * percent[p]!) / open : 0),
      massAt: asked[p]!.massAt ?? (part === null ? 0.5 : PART_SHARES[part].at),
    };
  });
}
