/** Where each limb of the performer ends on the puppet: the point whose way is watched when limbs are compared. */
import { LIMB_JOINTS, LIMBS } from '../timing/moments/moments.ts';
import type { CompleteArmature } from './complete.ts';
import type { ChainPoint } from './chainPoints.ts';
import type { PuppetJoint } from './puppetPoses.ts';

/**
 * One entry for each of LIMBS: the end of the outermost bone that one of the limb's joints moves, of the hips the start of
 * their bone; `null` for a limb that the puppet does not have. Of several (four legs driven by two) the first chain counts.
 *
 * @param joints of the moved puppet, in the order of the armature
 */
export function limbEnds({ bones, joints: made }: CompleteArmature, joints: readonly PuppetJoint[]): readonly (ChainPoint | null)[] {
  return LIMBS.map((limb) => {
    const own = LIMB_JOINTS[limb];
    let bone = -1;
    joints.forEach(({ source }, p) => {
      if (source === null || !own.includes(source)) return;
      if (bone < 0 || carries(made, bone, p)) bone = p;
    });
    return bone < 0 ? null : { name: bones[bone]!.name, bone, at: limb === 'hips' ? 0 : 1 };
  });
}

function carries(joints: CompleteArmature['joints'], up: number, p: number): boolean {
  for (let at = p; at >= 0; at = joints[at]!.parentIndex) if (at === up) return true;
  return false;
}
