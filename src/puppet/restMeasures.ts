/**
 * How tall a puppet stands at rest. At rest every bone's axes are the puppet's, so places simply add up.
 */
import { add, scale, type Vec3 } from '../numeric/vector3.ts';
import type { CompleteBone, CompleteJoint } from './complete.ts';

/**
 * Starts of all bones at rest, mm from the root bone's start `[P]`.
 *
 * @param joints parents before children; `joints[p]` turns `bones[p]`
 */
export function restStarts(bones: readonly CompleteBone[], joints: readonly CompleteJoint[]): readonly Vec3[] {
  const starts: Vec3[] = [];
  for (const { parentIndex, at, offsetMm } of joints) {
    const parent = parentIndex < 0 ? undefined : bones[parentIndex]!;
    starts.push(parent === undefined ? [0, 0, 0] : add(add(starts[parentIndex]!, scale(parent.along, parent.lengthMm * at)), offsetMm));
  }
  return starts;
}

/** Height of the root and of the highest point over the floor, mm. The floor is the lowest sole, or else the lowest bone's end. */
export function restMeasures(
  bones: readonly CompleteBone[], joints: readonly CompleteJoint[],
): { readonly rootHeightMm: number; readonly heightMm: number } {
  const starts = restStarts(bones, joints);
  let floor = Number.POSITIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  let top = Number.NEGATIVE_INFINITY;
  bones.forEach(({ along, lengthMm, sole }, p) => {
    const start = starts[p]![1];
    const end = start + along[1] * lengthMm;
    lowest = Math.min(lowest, start, end);
    top = Math.max(top, start, end);
    if (sole !== null) floor = Math.min(floor, start - sole.dropMm);
  });
  const level = Number.isFinite(floor) ? floor : lowest;
  return { rootHeightMm: -level, heightMm: top - level };
}
