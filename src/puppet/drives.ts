/**
 * Which of the performer's joints make each joint of the puppet, worked out once for an armature and its settings.
 */
import { JOINT, JOINT_PARENT, type JointName } from '../motion/joints.ts';
import type { CompleteArmature, CompleteDrive } from './complete.ts';
import type { PuppetSettings } from './puppetSettings.ts';

/** How one joint of the puppet is moved. */
export interface Follow {
  readonly drive: CompleteDrive;
  /**
   * Indices of the performer's joints whose turns are put together, from the outside of the one above it down to itself;
   * empty without a source. A performer's joint that moves nothing is rigid: its turn passes on to the joints it carries.
   */
  readonly chain: readonly number[];
  /** Part of the bend that falls to this joint, 0..1: its weight among the joints with the same source on one chain of bones. */
  readonly share: number;
}

/** The drives in force: those of the settings before those of the armature. */
export function drivesOf(armature: CompleteArmature, settings: Pick<PuppetSettings, 'drives'>): readonly CompleteDrive[] {
  if (settings.drives === null) return armature.drives;
  const said = new Map(settings.drives.map((drive) => [drive.joint, drive]));
  return armature.drives.map((own): CompleteDrive => {
    const drive = said.get(own.joint);
    if (drive === undefined) return own;
    const offset = drive.offsetDeg ?? {};
    return {
      joint: own.joint, from: drive.from, weight: drive.weight ?? 1, gain: drive.gain ?? 1, delaySteps: drive.delaySteps ?? 0,
      offsetDeg: { axis: offset.axis ?? 0, forward: offset.forward ?? 0, up: offset.up ?? 0, right: offset.right ?? 0 },
    };
  });
}

/** One entry for each joint of the armature. Joints of other limbs with the same source take the whole of it each. */
export function followsOf({ joints }: CompleteArmature, drives: readonly CompleteDrive[]): readonly Follow[] {
  const used = new Set(drives.flatMap(({ from }) => (from === null ? [] : [from])));
  const carries = (up: number, p: number): boolean => {
    for (let at = p; at >= 0; at = joints[at]!.parentIndex) if (at === up) return true;
    return false;
  };
  return drives.map((drive, p): Follow => {
    if (drive.from === null) return { drive, chain: [], share: 1 };
    const sum = drives.reduce((total, { from, weight }, q) => (from === drive.from && (carries(p, q) || carries(q, p)) ? total + weight : total), 0);
    return { drive, chain: chainOf(drive.from, used), share: sum > 0 ? drive.weight / sum : 0 };
  });
}

function chainOf(name: JointName, used: ReadonlySet<JointName>): readonly number[] {
  const chain = [JOINT[name]];
  for (let up = JOINT_PARENT[name]; up !== undefined && !used.has(up); up = JOINT_PARENT[up]) chain.unshift(JOINT[up]);
  return chain;
}
