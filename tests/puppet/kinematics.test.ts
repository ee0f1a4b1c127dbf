import fc from 'fast-check';
import { Object3D, Quaternion, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { fromAxisAngle, IDENTITY, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../src/puppet/examples/all.ts';
import { emptyStance, endOf, forward, orientationOf, skeletonOf, startOf } from '../../src/puppet/kinematics.ts';
import { anyQuat, SEEDED } from '../numeric/arbitrary.ts';

const RAD = Math.PI / 180;

function stance(armature: Armature, turns: Readonly<Record<string, Quat>>, root: readonly [number, number, number] = [0, 0, 0]) {
  const complete = completeArmature(armature);
  const skeleton = skeletonOf(complete);
  const rotations = new Float64Array(skeleton.count * 4);
  complete.joints.forEach(({ name }, p) => writeQuat(rotations, p, turns[name] ?? IDENTITY));
  const made = emptyStance(skeleton);
  forward(skeleton, rotations, 0, root, made);
  const bone = (name: string): number => complete.bones.findIndex((b) => b.name === name);
  return { start: (name: string) => startOf(made, bone(name)), end: (name: string) => endOf(skeleton, made, bone(name)), of: (name: string) => orientationOf(made, bone(name)) };
}

/** Three sticks of 100, 50 and 20 mm, the first two up, the last forward; the third sits half-way along the second. */
const STICKS: Armature = {
  format: 'nudgebook-armature', version: 2, name: 'Sticks',
  bones: [{ name: 'a', lengthMm: 100 }, { name: 'b', lengthMm: 50 }, { name: 'c', lengthMm: 20, along: [1, 0, 0] }],
  joints: [
    { name: 'foot', parent: null, child: 'a' }, { name: 'ab', parent: 'a', child: 'b', kind: 'hinge' },
    { name: 'bc', parent: 'b', child: 'c', at: 0.5, offsetMm: [0, 0, 5] },
  ],
};

const close = (is: readonly number[], shouldBe: readonly number[], digits = 10): void => {
  shouldBe.forEach((v, c) => expect(is[c]).toBeCloseTo(v, digits));
};

describe('forward kinematics of chains that a hand can work out', () => {
  it('at rest places add up', () => {
    const s = stance(STICKS, {}, [1, 2, 3]);
    close(s.end('b'), [1, 152, 3]);
    close(s.start('c'), [1, 127, 8]);
    close(s.end('c'), [21, 127, 8]);
  });

  it('a hinge of 90° about the axis to the right tips the second stick backward', () => {
    const s = stance(STICKS, { ab: fromAxisAngle([0, 0, 1], 90 * RAD) });
    close(s.end('b'), [-50, 100, 0]);
    close(s.end('c'), [-25, 120, 5]);
  });

  it('turns add up along the chain: 30° and 60° lean the second stick level', () => {
    const s = stance(STICKS, { foot: fromAxisAngle([0, 0, 1], 30 * RAD), ab: fromAxisAngle([0, 0, 1], 60 * RAD) });
    close(s.start('b'), [-100 * Math.sin(30 * RAD), 100 * Math.cos(30 * RAD), 0]);
    close(s.end('b'), [-50 - 50, 100 * Math.cos(30 * RAD), 0]);
  });
});

/** The same puppet as nested objects of three.js. */
function threeTree(armature: Armature, turns: readonly Quat[], root: readonly [number, number, number]): readonly Object3D[] {
  const { bones, joints } = completeArmature(armature);
  const nodes: Object3D[] = [];
  joints.forEach(({ parentIndex, at, offsetMm }, p) => {
    const node = new Object3D();
    const [w, x, y, z] = turns[p]!;
    node.quaternion.copy(new Quaternion(x, y, z, w));
    if (parentIndex < 0) node.position.set(...root);
    else {
      const { along, lengthMm } = bones[parentIndex]!;
      node.position.set(along[0] * lengthMm * at + offsetMm[0], along[1] * lengthMm * at + offsetMm[1], along[2] * lengthMm * at + offsetMm[2]);
      nodes[parentIndex]!.add(node);
    }
    nodes.push(node);
  });
  nodes[0]!.updateMatrixWorld(true);
  return nodes;
}

describe('against the scene graph of three.js', () => {
  it.each(EXAMPLES)('$id: every bone where three puts it, whatever the turns', ({ armature }) => {
    const complete = completeArmature(armature);
    const skeleton = skeletonOf(complete);
    const anyTurns = fc.array(anyQuat, { minLength: skeleton.count, maxLength: skeleton.count });
    fc.assert(fc.property(anyTurns, fc.tuple(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: 0, max: 300, noNaN: true }), fc.double({ min: -500, max: 500, noNaN: true })), (turns, root) => {
      const rotations = new Float64Array(skeleton.count * 4);
      turns.forEach((q, p) => writeQuat(rotations, p, q));
      const made = emptyStance(skeleton);
      forward(skeleton, rotations, 0, root, made);
      threeTree(armature, turns, root).forEach((node, p) => {
        const { along, lengthMm } = complete.bones[p]!;
        close(startOf(made, p), node.getWorldPosition(new Vector3()).toArray(), 8);
        close(endOf(skeleton, made, p), node.localToWorld(new Vector3(...along).multiplyScalar(lengthMm)).toArray(), 8);
      });
    }), SEEDED);
  });
});
