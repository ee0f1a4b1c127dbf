/** Which joints carry the small moves of a pause, and about what they turn. */
import type { JointName } from '../../motion/joints.ts';
import type { AlivePattern } from '../../timing/timingSettings.ts';
import { LIMB_JOINTS, LIMBS, type Limb } from '../../timing/moments/moments.ts';
import { turnsFreely, type Triple } from '../armature.ts';
import type { CompleteArmature, CompleteDrive } from '../complete.ts';

export interface Carrier {
  readonly joint: number;
  /** The limb whose pauses it keeps alive. */
  readonly limb: Limb;
  readonly source: JointName;
  /** Axis in the parent's axes that a pattern turns it about; of a joint of one axis the first number alone counts. */
  readonly axis: Triple;
  /** Part of the whole amplitude. */
  readonly share: number;
}

/** Breathing lifts chest and shoulders and the head gives way; a weight shift leans the trunk to the side and the head the other way. */
const TURNS: Readonly<Record<Exclude<AlivePattern, 'sway'>, Partial<Readonly<Record<JointName, Triple>>>>> = {
  breath: {
    spine: [0, 0, -0.6], chest: [0, 0, -1], neck: [0, 0, 0.8], head: [0, 0, 0.6], leftShoulder: [0.7, 0, 0], rightShoulder: [-0.7, 0, 0], leftElbow: [0.5, 0, 0], rightElbow: [0.5, 0, 0],
  },
  'weight shift': {
    spine: [0.8, 0, 0], chest: [0.7, 0, 0], neck: [-0.8, 0, 0], head: [-0.6, 0.4, 0], leftShoulder: [0.5, 0, 0.5], rightShoulder: [0.5, 0, -0.5], leftElbow: [0.5, 0, 0], rightElbow: [0.5, 0, 0],
  },
};
/** What a joint of the performer's own sway turns about where there is none to be had. */
const FALLBACK = TURNS['weight shift'];

/** Legs are solved from where the feet stand, and wrists follow their forearms: the others carry. */
export function carriersOf({ joints }: CompleteArmature, drives: readonly CompleteDrive[], pattern: AlivePattern, frozen: readonly string[]): readonly Carrier[] {
  const turns = pattern === 'sway' ? FALLBACK : TURNS[pattern];
  return joints.flatMap((joint, p): readonly Carrier[] => {
    const source = drives[p]!.from;
    const limb = source === null ? undefined : LIMBS.find((one) => LIMB_JOINTS[one].includes(source));
    const axis = source === null ? undefined : turns[source];
    if (source === null || limb === undefined || axis === undefined || frozen.includes(joint.name)) return [];
    const size = Math.hypot(...axis);
    const unit: Triple = turnsFreely(joint.kind) ? [axis[0] / size, axis[1] / size, axis[2] / size] : [Math.sign(axis[0] || axis[2] || 1), 0, 0];
    return [{ joint: p, limb, source, axis: unit, share: size }];
  });
}

/** The order in which joints are asked to stir: trunk and head first, since an arm may lie on a table; a wrist last. */
const STIR_RANK: Readonly<Partial<Record<Limb, number>>> = { head: 0, shoulders: 0, leftArm: 1, rightArm: 1 };
/** A wrist, which carries no pattern, nods. */
const WRIST_AXIS: Triple = [0, 0, 1];

/** All that may make a move of its own where a pattern leaves a pause still, those first that are asked first. */
export function stirrersOf(armature: CompleteArmature, drives: readonly CompleteDrive[], frozen: readonly string[]): readonly (readonly Carrier[])[] {
  const own = carriersOf(armature, drives, 'weight shift', frozen);
  const wrists = armature.joints.flatMap((joint, p): readonly Carrier[] => {
    const source = drives[p]!.from;
    if ((source !== 'leftWrist' && source !== 'rightWrist') || frozen.includes(joint.name)) return [];
    return [{ joint: p, limb: source === 'leftWrist' ? 'leftArm' : 'rightArm', source, axis: turnsFreely(joint.kind) ? WRIST_AXIS : [1, 0, 0], share: 1 }];
  });
  return [...[0, 1].map((rank) => own.filter(({ limb }) => STIR_RANK[limb] === rank)), wrists].filter((rank) => rank.length > 0);
}
