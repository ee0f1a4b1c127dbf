import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleBetween, fromAxisAngle, IDENTITY, readQuat, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { length, subtract, type Vec3 } from '../../src/numeric/vector3.ts';
import type { Armature, Joint } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { SEDGE } from '../../src/puppet/examples/bird.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { emptyStance, forward, orientationOf, skeletonOf, startOf } from '../../src/puppet/kinematics.ts';
import { LimbReacher } from '../../src/puppet/reachLimb.ts';
import { angleAbout, DEG_PER_RAD } from '../../src/puppet/turns.ts';
import { SEEDED } from '../numeric/arbitrary.ts';

const bone = (armature: Armature, name: string): number => completeArmature(armature).bones.findIndex((b) => b.name === name);
function atRest(armature: Armature): Float64Array {
  const { count } = skeletonOf(completeArmature(armature));
  const rotations = new Float64Array(count * 4);
  for (let p = 0; p < count; p++) writeQuat(rotations, p, IDENTITY);
  return rotations;
}
function places(armature: Armature, rotations: Float64Array) {
  const skeleton = skeletonOf(completeArmature(armature));
  const stance = emptyStance(skeleton);
  forward(skeleton, rotations, 0, [0, 0, 0], stance);
  return stance;
}

describe('a leg of two bones and one hinge', () => {
  // Marla: thigh 62, shank 65; hip 14 mm to the side
  const foot = bone(MARLA, 'leftFoot');
  const knee = bone(MARLA, 'leftShank');
  // ankles of any turn, so that the foot can always lie flat
  const free: Armature = { ...MARLA, joints: MARLA.joints.map((j): Joint => (j.name.endsWith('Ankle') ? { ...j, limitsDeg: {} } : j)) };

  it.each([126, 110, 100, 80, 40])('with the ankle %d mm under the hip bends the knee by the law of cosines', (distance) => {
    const rotations = atRest(free);
    const { missMm } = new LimbReacher(completeArmature(free), foot, [0, 0, 0]).reach(rotations, 0, [0, 0, 0], [0, -distance, -14], IDENTITY);
    expect(missMm).toBeLessThan(1e-9);
    const flexion = 180 - (Math.acos((62 ** 2 + 65 ** 2 - distance ** 2) / (2 * 62 * 65)) * 180) / Math.PI;
    expect(angleAbout(readQuat(rotations, knee), [0, 0, -1]) * DEG_PER_RAD).toBeCloseTo(flexion, 9);
    expect(angleBetween(orientationOf(places(free, rotations), foot), IDENTITY)).toBeLessThan(1e-9);
  });

  it('reaches every place within its reach, with the foot flat', () => {
    const anyPlace = fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -1, max: -0.2, noNaN: true }), fc.double({ min: -0.4, max: 0.4, noNaN: true }), fc.double({ min: 40, max: 126, noNaN: true }));
    const reacher = new LimbReacher(completeArmature(free), foot, [0, 0, 0]);
    fc.assert(fc.property(anyPlace, ([x, y, z, distance]) => {
      const size = Math.hypot(x, y, z);
      const target: Vec3 = [(x / size) * distance, (y / size) * distance, -14 + (z / size) * distance];
      const rotations = atRest(free);
      const { missMm, tilted } = reacher.reach(rotations, 0, [0, 0, 0], target, IDENTITY);
      expect(missMm).toBeLessThan(1e-8);
      expect(tilted).toBe(false);
      expect(length(subtract(startOf(places(free, rotations), foot), target))).toBeLessThan(1e-8);
    }), SEEDED);
  });

  it('stretched beyond its length points there and says by how much it misses', () => {
    const rotations = atRest(MARLA);
    const { missMm } = new LimbReacher(completeArmature(MARLA), foot, [0, 0, 0]).reach(rotations, 0, [0, 0, 0], [0, -137, -14], IDENTITY);
    expect(missMm).toBeCloseTo(10, 6);
  });

  it('a limit on the knee keeps it from folding further', () => {
    const stiff: Armature = { ...MARLA, joints: MARLA.joints.map((j): Joint => (j.name === 'leftKnee' ? { ...j, limitsDeg: { axis: [0, 60] } } : j)) };
    const rotations = atRest(stiff);
    const { missMm } = new LimbReacher(completeArmature(stiff), foot, [0, 0, 0]).reach(rotations, 0, [0, 0, 0], [0, -60, -14], IDENTITY);
    expect(angleAbout(readQuat(rotations, knee), [0, 0, -1]) * DEG_PER_RAD).toBeCloseTo(60, 9);
    expect(missMm).toBeGreaterThan(40);
  });
});

describe('a bird’s leg of three bones', () => {
  it('reaches places near and far with its toes flat; knee and heel both bend', () => {
    const foot = bone(SEDGE, 'leftToes');
    const reacher = new LimbReacher(completeArmature(SEDGE), foot, [0, 0, 0]);
    const rest = startOf(places(SEDGE, atRest(SEDGE)), foot);
    for (const lift of [0, 10, 30, 60]) {
      const rotations = atRest(SEDGE);
      const { missMm } = reacher.reach(rotations, 0, [0, 0, 0], [rest[0] + 5, rest[1] + lift, rest[2]], IDENTITY);
      expect(missMm).toBeLessThan(1e-6);
      if (lift < 30) continue;
      const bend = (name: string, axis: Vec3): number => angleAbout(readQuat(rotations, bone(SEDGE, name)), axis) * DEG_PER_RAD;
      expect(bend('leftShank', [0, 0, -1])).toBeGreaterThan(5);
      expect(bend('leftTarsus', [0, 0, 1])).toBeGreaterThan(5);
    }
  });
});

describe('a limb without a ball', () => {
  /** Two hinges in one plane on a stand with a second arm, so that the limb begins behind it. */
  const CRANE: Armature = {
    format: 'nudgebook-armature', version: 2, name: 'Crane',
    bones: [{ name: 'stand', lengthMm: 10 }, { name: 'jib', lengthMm: 50 }, { name: 'arm', lengthMm: 40 }, { name: 'hook', lengthMm: 1 }, { name: 'weight', lengthMm: 20 }],
    joints: [
      { name: 'stand', parent: null, child: 'stand' }, { name: 'a', parent: 'stand', child: 'jib', kind: 'hinge' }, { name: 'b', parent: 'jib', child: 'arm', kind: 'hinge' },
      { name: 'c', parent: 'arm', child: 'hook', kind: 'hinge' }, { name: 'w', parent: 'stand', child: 'weight' },
    ],
  };

  it('finds a place in its plane by least squares: the elbow of the closed two-bone case', () => {
    const hook = bone(CRANE, 'hook');
    const rotations = atRest(CRANE);
    // off the straight rest, where no first step would be known
    writeQuat(rotations, bone(CRANE, 'arm'), fromAxisAngle([0, 0, 1], 0.3) as Quat);
    const { missMm } = new LimbReacher(completeArmature(CRANE), hook, [0, 0, 0]).reach(rotations, 0, [0, 0, 0], [-30, 60, 0], null);
    expect(missMm).toBeLessThan(1e-5);
    const distance = Math.hypot(30, 50);
    const flexion = 180 - (Math.acos((50 ** 2 + 40 ** 2 - distance ** 2) / (2 * 50 * 40)) * 180) / Math.PI;
    expect(Math.abs(angleAbout(readQuat(rotations, bone(CRANE, 'arm')), [0, 0, 1]) * DEG_PER_RAD)).toBeCloseTo(flexion, 4);
  });
});
