/** Random poses judged by the core and let go in the engine: do those that are said to stand stand, and those that are said to fall fall? */
import { VERDICTS, type Verdict } from '../../../src/balance/balance.ts';
import { judgeBalance } from '../../../src/balance/judgeBalance.ts';
import { DEFAULT_POISE } from '../../../src/balance/poiseSettings.ts';
import { JOINT_COUNT } from '../../../src/motion/joints.ts';
import type { Armature } from '../../../src/puppet/armature.ts';
import type { CompleteArmature } from '../../../src/puppet/complete.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../../src/puppet/examples/all.ts';
import { feetOf } from '../../../src/puppet/feet.ts';
import { startEngine, tiltAfter } from './dropPose.ts';
import { randomOf, randomPose, type RandomPose } from './randomPoses.ts';

export interface TriedPose {
  readonly puppet: string;
  readonly seed: number;
  readonly feet: number;
  readonly withProp: boolean;
  readonly marginMm: number;
  readonly verdict: Verdict;
  readonly tiltDeg: number;
}

/** A body that has tilted less than this stands, one that has tilted more than that has fallen; degrees. Our choice: nothing lies between after three seconds. */
export const STANDS_BELOW_DEG = 3;
export const FALLEN_FROM_DEG = 15;
const SECONDS = 3;

/** Height of the performer that the pose would have come from; the error of the margin goes with it. */
const PERFORMER_M = 1.7;

/** `each` poses of every example armature. */
export async function tryPoses(each: number, firstSeed = 1): Promise<readonly TriedPose[]> {
  await startEngine();
  return EXAMPLES.flatMap(({ armature }, k) => Array.from({ length: each }, (_, i) => tryPose(armature, firstSeed + k * 10_000 + i)));
}

export function tryPose(document: Armature, seed: number): TriedPose {
  const armature = completeArmature(document);
  const pose = randomPose(armature, randomOf(seed));
  const { verdict, marginMm } = judged(armature, pose);
  return { puppet: armature.name, seed, feet: pose.standing.length, withProp: pose.prop !== null, marginMm, verdict, tiltDeg: tiltAfter(armature, pose, SECONDS) };
}

/** The core's word on a pose, which is taken to stand for one step. Bones that hang to the floor are said not to touch: in the engine they don't. */
export function judged(armature: CompleteArmature, { rotations, rootMm, standing, prop }: RandomPose): { readonly verdict: Verdict; readonly marginMm: number } {
  const feet = feetOf(armature, armature.drives);
  const width = armature.bones.length;
  const one = Float64Array.of(0);
  const moved = {
    joints: armature.joints.map(({ name, kind, axis }) => ({ name, kind, axis, source: null, observable: true, turnHidden: false })),
    rotations, rootMm: Float64Array.from(rootMm), feet, stands: Uint8Array.from(feet, (foot) => (standing.includes(foot) || standing.some(({ bone }) => bone === foot.bone) ? 1 : 0)), placed: [],
    confidence: new Float32Array(width).fill(1), state: new Uint8Array(width), errorDeg: new Float32Array(width), turnErrorDeg: new Float32Array(width), unsure: new Uint8Array(width), flags: new Uint8Array(width),
  };
  const poses = {
    timesS: one, rotations: new Float64Array(JOINT_COUNT * 4), rootM: new Float64Array(3), contacts: new Uint8Array(2), confidence: new Float32Array(JOINT_COUNT),
    state: new Uint8Array(JOINT_COUNT), errorDeg: new Float32Array(JOINT_COUNT), turnErrorDeg: new Float32Array(JOINT_COUNT), unsure: new Uint8Array(JOINT_COUNT),
  };
  const touches = armature.bones.filter(({ sole }) => sole === null).map(({ name }) => ({ bone: name, fromS: -1, toS: 1, touches: false }));
  const balance = judgeBalance({
    armature, moved, ordered: moved, poses, performerHeightM: PERFORMER_M, performer: null, apparentHeightM: null,
    steps: { count: 1, exposure: Int32Array.of(1), holds: Int32Array.of(1), filmTimeS: one, sourceTimeS: one },
  }, { ...DEFAULT_POISE, touches, props: prop === null ? [] : [prop] });
  return { verdict: VERDICTS[balance.standVerdict[0]!]!, marginMm: balance.standMm[0]! };
}
