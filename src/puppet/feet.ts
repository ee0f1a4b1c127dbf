/**
 * Which bones are feet, whose steps they take, and when they stand.
 */
import { JOINT_NAMES, type JointName } from '../motion/joints.ts';
import type { CompleteArmature, CompleteDrive } from './complete.ts';
import type { PosesLater } from './applyArmature.ts';

export interface Foot {
  /** Index of the bone with the sole, and its name. */
  readonly bone: number;
  readonly name: string;
  /** The performer's foot whose stands it takes over; `null`: none, it never counts as standing. */
  readonly side: 'left' | 'right' | null;
  readonly delaySteps: number;
}

/** All bones with a sole. A foot follows the performer's leg that drives the joints above it, the innermost telling. */
export function feetOf({ bones, joints }: CompleteArmature, drives: readonly CompleteDrive[]): readonly Foot[] {
  return bones.flatMap((bone, p): readonly Foot[] => {
    if (bone.sole === null) return [];
    let side: Foot['side'] = null;
    let delaySteps = 0;
    for (let at = p; at >= 0; at = joints[at]!.parentIndex) {
      const leg = sideOfLeg(drives[at]!.from);
      if (leg === null) continue;
      side = leg;
      delaySteps = drives[at]!.delaySteps;
    }
    return [{ bone: p, name: bone.name, side, delaySteps }];
  });
}

const LEG_JOINTS: readonly JointName[] = JOINT_NAMES.filter((name) => /Hip|Knee|Ankle/.test(name));

function sideOfLeg(from: JointName | null): Foot['side'] {
  if (from === null || !LEG_JOINTS.includes(from)) return null;
  return from.startsWith('left') ? 'left' : 'right';
}

/** `[N·F]` 1 where a foot stands: where the performer's does, so many steps later. */
export function standingFeet(feet: readonly Foot[], posesAt: PosesLater): Uint8Array {
  const count = posesAt(0).timesS.length;
  const stands = new Uint8Array(count * feet.length);
  feet.forEach(({ side, delaySteps }, f) => {
    if (side === null) return;
    const { contacts } = posesAt(delaySteps);
    for (let s = 0; s < count; s++) stands[s * feet.length + f] = contacts[s * 2 + (side === 'left' ? 0 : 1)]!;
  });
  return stands;
}
