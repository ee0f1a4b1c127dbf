/**
 * The points of a puppet whose travel a hand can see and a gauge can read: the ends of its chains, the bends of its limbs,
 * and where the whole puppet hangs.
 */
import { turnsFreely } from './armature.ts';
import type { CompleteArmature } from './complete.ts';

export interface ChainPoint {
  /** "leftHand tip", "leftElbow", "pelvis". */
  readonly name: string;
  /** Index of the bone it is fixed to. */
  readonly bone: number;
  /** 0 that bone's start, 1 its end. */
  readonly at: number;
}

/**
 * In the order of the bones: the root's start (named as the root bone), the start of each bone that a joint of one axis
 * turns (named as the joint), and the end of each bone that carries no other (the bone's name and "tip").
 */
export function chainPoints({ bones, joints }: CompleteArmature): readonly ChainPoint[] {
  const carrying = new Set(joints.map(({ parentIndex }) => parentIndex));
  return joints.flatMap((joint, p): readonly ChainPoint[] => {
    const out: ChainPoint[] = [];
    if (joint.parentIndex < 0) out.push({ name: bones[p]!.name, bone: p, at: 0 });
    else if (!turnsFreely(joint.kind) && carrying.has(p)) out.push({ name: joint.name, bone: p, at: 0 });
    if (!carrying.has(p)) out.push({ name: `${bones[p]!.name} tip`, bone: p, at: 1 });
    return out;
  });
}
