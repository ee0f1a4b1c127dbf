/**
 * Random poses of an armature on one foot or on two, with its feet flat on the floor and now and then something in a hand:
 * what the verdicts of standing are tried on. From a seed, so that a miss can be looked at again.
 */
import type { Prop } from '../../../src/balance/poiseSettings.ts';
import { conjugate, fromAxisAngle, fromRotationVector, multiply, readQuat, rotate, writeQuat, type Quat } from '../../../src/numeric/quaternion.ts';
import { scale } from '../../../src/numeric/vector3.ts';
import { turnsFreely } from '../../../src/puppet/armature.ts';
import type { CompleteArmature, CompleteJoint } from '../../../src/puppet/complete.ts';
import { feetOf, type Foot } from '../../../src/puppet/feet.ts';
import { emptyStance, forward, orientationOf, skeletonOf, startOf } from '../../../src/puppet/kinematics.ts';

/** One pose: `rotations[P·4]`, start of the root bone, which of the feet stand, what is carried. */
export interface RandomPose {
  readonly rotations: Float64Array;
  readonly rootMm: readonly [number, number, number];
  readonly standing: readonly Foot[];
  readonly prop: Prop | null;
}

/** Turns of joints that have no limits, degrees to either side. */
const FREE_DEG = 40;

/** mulberry32 (public domain): the same row of numbers 0..1 for the same seed. */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomPose(armature: CompleteArmature, random: () => number): RandomPose {
  const skeleton = skeletonOf(armature);
  const feet = feetOf(armature, armature.drives);
  const rotations = new Float64Array(skeleton.count * 4);
  // small turns keep some poses well inside their base of support, large ones take others far out
  const most = random() ** 2;
  const foot = feet[Math.floor(random() * feet.length)]!;
  const twin = feet.find(({ name }) => name === otherSide(foot.name));
  const lot = random();
  const standing = lot < 0.25 ? feet : twin !== undefined && lot < 0.6 ? [foot, twin] : [foot];
  // on all feet: what lies between them stays at rest, where all soles are in one plane
  const still = new Set<number>([0]);
  if (standing === feet) for (const { bone } of feet) for (let p = bone; p > 0; p = skeleton.parent[p]!) still.add(p);
  armature.joints.forEach((joint, p) => writeQuat(rotations, p, still.has(p) ? [1, 0, 0, 0] : randomTurn(joint, standing === feet ? 1 : most, random)));
  const stance = emptyStance(skeleton);
  const place = (): void => forward(skeleton, rotations, 0, [0, 0, 0], stance);
  const setFlat = (bone: number, as: Quat): void => {
    place();
    writeQuat(rotations, bone, multiply(conjugate(orientationOf(stance, skeleton.parent[bone]!)), as));
  };
  if (standing.length === 2 && standing !== feet) {
    // the other leg turns as in a mirror; then both soles lie in one plane that leans forward or back only, as seen from what carries both legs
    let carrier = foot.bone;
    for (let p = foot.bone; p > 0 && skeleton.parent[p]! >= 0; p = skeleton.parent[p]!) {
      const other = armature.joints.findIndex(({ name }) => name === otherSide(armature.joints[p]!.name));
      if (other === p) break;
      carrier = skeleton.parent[p]!;
      const [w, x, y, z] = readQuat(rotations, p);
      writeQuat(rotations, other, [w, -x, -y, z]);
    }
    place();
    const flat = multiply(orientationOf(stance, carrier), fromAxisAngle([0, 0, 1], (random() - 0.5) * most));
    for (const { bone } of standing) setFlat(bone, flat);
  }
  place();
  const yaw = fromAxisAngle([0, 1, 0], random() * 2 * Math.PI);
  writeQuat(rotations, 0, multiply(yaw, conjugate(orientationOf(stance, foot.bone))));
  place();
  const sole = armature.bones[foot.bone]!.sole!;
  const [x, y, z] = startOf(stance, foot.bone);
  const hand = armature.bones.findIndex(({ name }) => /Hand$|WingTip$|head$/.test(name));
  const prop: Prop | null = random() < 0.3 && hand >= 0
    ? { name: 'jar', bone: armature.bones[hand]!.name, atMm: scale(armature.bones[hand]!.along, armature.bones[hand]!.lengthMm), massG: armature.totalMassG * (standing === feet ? 1.5 : 0.15) * random(), fromS: -1, toS: 1e6 }
    : null;
  return { rotations, rootMm: [-x, sole.dropMm - y, -z], standing, prop };
}

function otherSide(name: string): string {
  return name.startsWith('left') ? `right${name.slice(4)}` : name.startsWith('right') ? `left${name.slice(5)}` : name;
}

function randomTurn({ kind, axis, limitsDeg }: CompleteJoint, most: number, random: () => number): Quat {
  const within = (range: readonly [number, number] | null): number => {
    const [least, greatest] = range ?? [-FREE_DEG, FREE_DEG];
    return (most * (least + random() * (greatest - least)) * Math.PI) / 180;
  };
  if (turnsFreely(kind)) return fromRotationVector([within(limitsDeg.forward), within(limitsDeg.up), within(limitsDeg.right)]);
  return fromAxisAngle(axis, within(limitsDeg.axis));
}

/** Where the bones of a pose are; for the engine. */
export function placed(armature: CompleteArmature, { rotations, rootMm }: RandomPose): { readonly at: (bone: number, localMm: readonly [number, number, number]) => readonly [number, number, number]; readonly turn: (bone: number) => Quat } {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, rotations, 0, rootMm, stance);
  return {
    turn: (bone) => orientationOf(stance, bone),
    at: (bone, localMm) => {
      const [x, y, z] = startOf(stance, bone);
      const [a, b, c] = rotate(orientationOf(stance, bone), localMm);
      return [x + a, y + b, z + c];
    },
  };
}
