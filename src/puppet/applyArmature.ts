/**
 * From the performer's joints to the puppet's.
 *
 * - A joint that the puppet lacks is rigid. Its turn passes on to the joints it carries: theirs becomes the product of
 *   all turns from the nearest joint above that the puppet has, so every segment below keeps its orientation on the stage.
 *   Where it carries none (a hand without a wrist), the turn is lost.
 * - A ball takes the whole turn.
 * - A hinge takes the part about its Z axis, a swivel the part about the bone's Y axis: the twist of q = swing · twist
 *   about that axis. What such a joint can't make is lost, not passed on: a knee stays the performer's knee, whatever kind
 *   of hip carries it. A hinge that the performer has as a hinge is carried over exactly.
 */
import { JOINT, JOINT_COUNT, JOINT_NAMES, JOINT_PARENT, type JointKind, type JointName } from '../motion/joints.ts';
import { STATE_MEASURED, STATE_MISSING } from '../motion/motion.ts';
import { combinedErrorDeg } from '../motion/trust/combine.ts';
import { IDENTITY, multiply, normalise, readQuat, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { makeSignContinuous } from '../numeric/quaternionSeries.ts';
import type { Poses } from '../timing/poses.ts';
import type { Armature } from './armature.ts';

export interface PuppetJoint {
  readonly name: JointName;
  readonly kind: JointKind;
  /** False for a joint that the footage can never show: it stays at rest. */
  readonly observable: boolean;
}

/**
 * N moments, P joints of the puppet in the order of JOINT_NAMES (parents before children).
 * - `rotations[N·P·4]` w, x, y, z against the nearest segment above that the puppet has; continuous in sign; NaN where missing.
 * - `confidence[N·P]` the least of the joints that were put together, leaving out those that are not observable.
 * - `state[N·P]` the worst of them.
 * - `errorDeg[N·P]` one sigma, degrees, put together from theirs; NaN where missing or none of them is observable.
 * - `unsure[N·P]` UNSURE_* bits of all of them.
 */
export interface PuppetPoses {
  readonly joints: readonly PuppetJoint[];
  readonly rotations: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly unsure: Uint8Array;
}

/**
 * @param poses performer's poses at N moments (a Motion will do)
 * @param observable `[J]` of the motion they come from
 */
export function applyArmature(poses: Poses, observable: Uint8Array, armature: Armature): PuppetPoses {
  const kinds = new Map(armature.joints.map(({ name, kind }) => [name, kind]));
  const names = JOINT_NAMES.filter((name) => kinds.has(name));
  const chains = names.map((name) => chainOf(name, kinds));
  const count = poses.timesS.length;
  const width = names.length;
  const rotations = new Float64Array(count * width * 4).fill(Number.NaN);
  const confidence = new Float32Array(count * width);
  const state = new Uint8Array(count * width);
  const errorDeg = new Float32Array(count * width).fill(Number.NaN);
  const unsure = new Uint8Array(count * width);
  chains.forEach((chain, p) => {
    const kind = kinds.get(names[p]!)!;
    const seen = chain.filter((j) => observable[j] === 1);
    for (let s = 0; s < count; s++) {
      const base = s * JOINT_COUNT;
      const out = s * width + p;
      let worst = STATE_MEASURED as number;
      for (const j of chain) worst = Math.max(worst, poses.state[base + j]!);
      state[out] = worst;
      if (worst === STATE_MISSING) continue;
      let q: Quat = readQuat(poses.rotations, base + chain[0]!);
      for (let i = 1; i < chain.length; i++) q = multiply(q, readQuat(poses.rotations, base + chain[i]!));
      writeQuat(rotations, out, asKind(q, kind));
      let least = seen.length > 0 ? 1 : 0;
      for (const j of seen) least = Math.min(least, poses.confidence[base + j]!);
      confidence[out] = least;
      errorDeg[out] = combinedErrorDeg(seen, (j) => poses.errorDeg[base + j]!);
      for (const j of seen) unsure[out]! |= poses.unsure[base + j]!;
    }
    makeSignContinuous(rotations, count, width * 4, p * 4);
  });
  const joints = names.map((name, p): PuppetJoint => ({
    name, kind: kinds.get(name)!, observable: chains[p]!.some((j) => observable[j] === 1),
  }));
  return { joints, rotations, confidence, state, errorDeg, unsure };
}

/** Indices of the performer's joints that make one joint of the puppet, from the outside of the one above it down to itself. */
function chainOf(name: JointName, has: ReadonlyMap<JointName, JointKind>): readonly number[] {
  const chain = [JOINT[name]];
  for (let up = JOINT_PARENT[name]; up !== undefined && !has.has(up); up = JOINT_PARENT[up]) chain.unshift(JOINT[up]);
  return chain;
}

function asKind(q: Quat, kind: JointKind): Quat {
  if (kind === 'ball') return q;
  if (kind === 'hinge') return twist([q[0], 0, 0, q[3]]);
  return twist([q[0], 0, q[2], 0]);
}

/** Where the turn is exactly half a turn about an axis square to the joint's, there is no part about it. */
function twist(part: Quat): Quat {
  return Math.abs(part[0]) + Math.abs(part[2]) + Math.abs(part[3]) < 1e-12 ? IDENTITY : normalise(part);
}
