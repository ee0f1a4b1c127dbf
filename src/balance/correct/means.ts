/**
 * By what a pose is brought into balance: the pelvis shifted over the foot, the spine leaned, an arm as counterweight. Each is a
 * few amounts; together they are the change.
 */
import { turnsFreely } from '../../puppet/armature.ts';
import type { CompleteArmature } from '../../puppet/complete.ts';
import type { PuppetJoint } from '../../puppet/puppetPoses.ts';
import type { JointName } from '../../motion/joints.ts';

export const MEANS = ['pelvis', 'spine', 'arms'] as const;
export type Means = (typeof MEANS)[number];

/** One amount of a change: degrees of a turn about an axis of the parent (0 forward, 1 up, 2 right), or millimetres of the root. */
export interface Amount {
  readonly means: Means;
  /** Joints that share it alike; empty for the root. */
  readonly joints: readonly number[];
  readonly axis: 0 | 1 | 2;
  /** What a unit of it costs, in squared degrees of joint turn. */
  readonly weight: number;
  /** Least and most. */
  readonly range: readonly [least: number, most: number];
}

/** Farthest shift of the pelvis as a part of the leg's length, most lean and most lift of an arm, degrees. Our choices. */
const MOST_SHIFT_PART = 0.25;
const MOST_LEAN_DEG = 25;
const MOST_ARM_DEG = 70;
/** A lifted arm is one joint that nobody looks at first; a lean of the spine shows at once. Ours. */
const ARM_COST = 0.5;
const DEG_PER_RAD = 180 / Math.PI;

const SPINE: readonly (JointName | null)[] = ['spine', 'chest'];

/** The amounts that a puppet has of the chosen means. */
export function amountsOf({ joints, rootHeightMm }: CompleteArmature, made: readonly PuppetJoint[], means: readonly Means[]): readonly Amount[] {
  const free = (p: number): boolean => turnsFreely(joints[p]!.kind);
  const driven = (names: readonly (JointName | null)[]): number[] => made.flatMap(({ source }, p) => (names.includes(source) && free(p) && joints[p]!.parentIndex >= 0 ? [p] : []));
  const legMm = Math.max(1, rootHeightMm);
  const out: Amount[] = [];
  if (means.includes('pelvis')) {
    // a shift by d turns hip and ankle by d over the leg's length each
    const weight = 2 * (DEG_PER_RAD / legMm) ** 2;
    const most = MOST_SHIFT_PART * legMm;
    for (const axis of [0, 2] as const) out.push({ means: 'pelvis', joints: [], axis, weight, range: [-most, most] });
  }
  const spine = driven(SPINE);
  if (means.includes('spine') && spine.length > 0) {
    for (const axis of [0, 2] as const) out.push({ means: 'spine', joints: spine, axis, weight: 1 / spine.length, range: [-MOST_LEAN_DEG, MOST_LEAN_DEG] });
  }
  if (means.includes('arms')) {
    for (const [name, outward] of [['leftShoulder', 1], ['rightShoulder', -1]] as const) {
      const arm = driven([name]).slice(0, 1);
      if (arm.length === 0) continue;
      out.push({ means: 'arms', joints: arm, axis: 0, weight: ARM_COST, range: outward > 0 ? [0, MOST_ARM_DEG] : [-MOST_ARM_DEG, 0] });
    }
  }
  return out;
}
