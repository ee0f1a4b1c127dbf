/**
 * A limb as inverse kinematics sees it: from the bone where it leaves the trunk out to the bone whose place is wanted.
 */
import { readVec3, scale, type Vec3 } from '../numeric/vector3.ts';
import { turnsFreely } from './armature.ts';
import type { CompleteArmature } from './complete.ts';
import { skeletonOf } from './kinematics.ts';
import { LimbBend } from './limbBend.ts';

export interface Limb {
  /** The joint of any turn that aims the limb; -1 where the limb has none, and it is solved by least squares. */
  readonly aim: number;
  /** Joints of one axis between it and the end, outward: they set how far the limb reaches. */
  readonly bends: readonly number[];
  /** Joints behind the last bend, up to that of the bone whose place is wanted, outward. */
  readonly rest: readonly number[];
  /** All joints from where the limb leaves the trunk, outward. */
  readonly all: readonly number[];
}

/**
 * The limb that ends with a bone.
 *
 * It begins behind the last bone that carries more than one other: the trunk. Within it the last joint of any turn that has
 * a joint of one axis behind it aims; the one-axis joints behind bend.
 *
 * @param bone index of the bone whose place is wanted; its own joint is never the one that aims
 */
export function limbOf({ joints }: CompleteArmature, bone: number): Limb {
  const children = joints.map((_, p) => joints.filter(({ parentIndex }) => parentIndex === p).length);
  const all: number[] = [];
  let p = bone;
  while (joints[p]!.parentIndex >= 0) {
    all.unshift(p);
    p = joints[p]!.parentIndex;
    if (children[p]! > 1) break;
  }
  const inner = all.slice(0, -1);
  for (let i = inner.length - 1; i >= 0; i--) {
    if (!turnsFreely(joints[inner[i]!]!.kind)) continue;
    const behind = all.slice(i + 1);
    const bends = behind.filter((q) => q !== bone && !turnsFreely(joints[q]!.kind));
    if (bends.length === 0) continue;
    const last = behind.indexOf(bends.at(-1)!);
    // a free joint among the bends would make the reach depend on it: it is kept as the performer has it
    return { aim: inner[i]!, bends: behind.slice(0, last + 1), rest: behind.slice(last + 1), all };
  }
  return { aim: -1, bends: [], rest: all, all };
}

/**
 * What bends in a limb, as numbers, for reaching a point that is fixed to the bone behind the last bend.
 *
 * @param pointMm that point at rest, from that bone's start
 */
export function bendOf(armature: CompleteArmature, limb: Limb, pointMm: Vec3): LimbBend {
  const skeleton = skeletonOf(armature);
  const places: Vec3[] = limb.bends.map((p) => readVec3(skeleton.placeMm, p));
  return new LimbBend(limb.bends.map((p) => armature.joints[p]!), places, pointMm);
}

/** Local place of a point on a bone, mm from its start. */
export function placeOn(armature: CompleteArmature, bone: number, at: number): Vec3 {
  const { along, lengthMm } = armature.bones[bone]!;
  return scale(along, lengthMm * at);
}
