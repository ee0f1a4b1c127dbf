/** What is put on top of a performance: turns come in, standing feet stay. */
import { expect, test } from 'vitest';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { emptyAdded, sumOfAdded } from '../../src/puppet/added.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { emptyStance, forward, skeletonOf, startOf } from '../../src/puppet/kinematics.ts';
import { movePuppet, type MovedPuppet } from '../../src/puppet/movePuppet.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../../src/puppet/puppetSettings.ts';
import { angleOf, multiply, conjugate, readQuat } from '../../src/numeric/quaternion.ts';
import { readVec3, subtract, length } from '../../src/numeric/vector3.ts';
import { JOINT_COUNT } from '../../src/motion/joints.ts';

const STEPS = 5;
const armature = completeArmature(MARLA);
const width = armature.joints.length;

/** Standing upright on both feet. */
const poses = {
  timesS: Float64Array.from({ length: STEPS }, (_, s) => s / 12),
  rotations: Float64Array.from({ length: STEPS * JOINT_COUNT * 4 }, (_, i) => (i % 4 === 0 ? 1 : 0)),
  rootM: Float64Array.from({ length: STEPS * 3 }, (_, i) => (i % 3 === 1 ? 0.92 : 0)),
  contacts: new Uint8Array(STEPS * 2).fill(1),
  confidence: new Float32Array(STEPS * JOINT_COUNT).fill(1),
  state: new Uint8Array(STEPS * JOINT_COUNT),
  errorDeg: new Float32Array(STEPS * JOINT_COUNT).fill(1),
  turnErrorDeg: new Float32Array(STEPS * JOINT_COUNT).fill(1),
  unsure: new Uint8Array(STEPS * JOINT_COUNT),
};

function moved(added: Parameters<typeof movePuppet>[4]): MovedPuppet {
  return movePuppet(() => poses, { observable: new Uint8Array(JOINT_COUNT).fill(1), legLengthM: 0.92 }, MARLA, DEFAULT_PUPPET_SETTINGS, added);
}

function footAt({ rotations, rootMm, feet }: MovedPuppet, s: number, foot: number): readonly [number, number, number] {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, rotations, s, readVec3(rootMm, s), stance);
  return startOf(stance, feet[foot]!.bone);
}

test('an added turn turns its joint by just that, and a shift moves the body while standing feet stay', () => {
  const plain = moved(null);
  const added = emptyAdded(STEPS, width);
  const spine = armature.joints.findIndex(({ name }) => name === 'spine');
  added.turnDeg[(2 * width + spine) * 3] = 7;
  added.rootMm.set([0, -3, 4], 3 * 3);
  const now = moved(added);
  for (let s = 0; s < STEPS; s++) {
    const turn = angleOf(multiply(readQuat(now.rotations, s * width + spine), conjugate(readQuat(plain.rotations, s * width + spine))));
    expect((turn * 180) / Math.PI).toBeCloseTo(s === 2 ? 7 : 0, 6);
    for (const foot of [0, 1]) expect(length(subtract(footAt(now, s, foot), footAt(plain, s, foot)))).toBeLessThan(0.1);
  }
  expect(now.rootMm[3 * 3 + 2]! - plain.rootMm[3 * 3 + 2]!).toBeCloseTo(4, 1);
  // upright legs are at their longest, where the body had been brought nearer by a hair
  expect(Math.abs(now.rootMm[3 * 3 + 1]! - plain.rootMm[3 * 3 + 1]! + 3)).toBeLessThan(0.1);
  expect(now.rootMm[2 * 3 + 2]).toBeCloseTo(plain.rootMm[2 * 3 + 2]!, 6);
});

test('several add up; none is none', () => {
  const [a, b] = [emptyAdded(2, 1), emptyAdded(2, 1)];
  a.turnDeg[0] = 2;
  b.turnDeg[0] = 3;
  b.rootMm[4] = 5;
  expect(sumOfAdded([null, null])).toBeNull();
  expect(sumOfAdded([null, a])).toBe(a);
  const sum = sumOfAdded([a, null, b])!;
  expect([...sum.turnDeg]).toEqual([5, 0, 0, 0, 0, 0]);
  expect(sum.rootMm[4]).toBe(5);
  expect(a.turnDeg[0]).toBe(2);
});
