/** Balance of the plan's poses, exact and ordered. */
import type { Balance } from '../balance/balance.ts';
import { judgeBalance } from '../balance/judgeBalance.ts';
import type { MassPath } from '../balance/performerMass.ts';
import type { PoiseSettings } from '../balance/poiseSettings.ts';
import type { Motion } from '../motion/motion.ts';
import type { Armature } from '../puppet/armature.ts';
import { completeArmature } from '../puppet/completeArmature.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import { performerHeightM } from '../puppet/timeScale.ts';
import type { Ordered } from './ordered.ts';
import type { Stepped } from './stepped.ts';

export function judgeAll(
  motion: Motion, { steps, posesAt }: Stepped, armature: Armature, moved: MovedPuppet, { orders, root }: Ordered, performer: MassPath | null,
  apparentHeightM: number | null, poise: PoiseSettings,
): Balance {
  return judgeBalance({
    armature: completeArmature(armature), moved, ordered: { rotations: orders.rotations, rootMm: root.root }, poses: posesAt(0),
    performerHeightM: performerHeightM(motion.legLengthM), performer, apparentHeightM, steps,
  }, poise);
}
