import { describe, expect, it } from 'vitest';
import { mirrored, otherSide, sideOf } from '../../../src/app/screens/puppet/edits/mirror.ts';
import { boneOfJoint, freeName, hangingOn, renamed, withBone, withJoint, withoutPart, withPart } from '../../../src/app/screens/puppet/edits/parts.ts';
import { onStage } from '../../../src/charts/figure/figure.ts';
import { figureOf, poseOf } from '../../../src/app/screens/puppet/figureOf.ts';
import { fromAxisAngle, IDENTITY } from '../../../src/numeric/quaternion.ts';
import type { Armature } from '../../../src/puppet/armature.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../../src/puppet/examples/all.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { checkArmature } from '../../../src/puppet/parseArmature.ts';

describe('edits of parts', () => {
  it('change a bone or a joint by the joint’s name, and give a default back', () => {
    const longer = withBone(MARLA, 'leftKnee', { lengthMm: 70 });
    expect(boneOfJoint(longer, 'leftKnee')).toMatchObject({ name: 'leftShank', lengthMm: 70 });
    expect(boneOfJoint(longer, 'rightKnee')?.lengthMm).toBe(65);
    const back = withJoint(withJoint(MARLA, 'neck', { slackDeg: 3 }), 'neck', { slackDeg: undefined });
    expect(Object.hasOwn(back.joints.find((j) => j.name === 'neck')!, 'slackDeg')).toBe(false);
  });

  it('rename a joint and its bone wherever they are spoken of', () => {
    const bramble = EXAMPLES.find((e) => e.id === 'four-legged')!.armature;
    const next = checkArmature(renamed(bramble, 'loin', 'waist', 'waistBone'));
    expect(next.joints.find((j) => j.name === 'ribs')?.parent).toBe('waistBone');
    expect(next.drives?.some((d) => d.joint === 'waist')).toBe(true);
  });

  it('add a bone under a free name, and remove one with all that hangs on it', () => {
    const { armature, name } = withPart(MARLA, 'head', 'jaw');
    expect(checkArmature(armature).joints.find((j) => j.name === name)).toMatchObject({ parent: 'head', child: 'jaw' });
    expect(freeName(armature, 'jaw')).toBe('jaw2');
    expect([...hangingOn(MARLA, 'leftHip')].sort()).toEqual(['leftAnkle', 'leftHip', 'leftKnee']);
    const without = checkArmature(withoutPart(MARLA, 'leftHip'));
    expect(without.bones.length).toBe(MARLA.bones.length - 3);
    expect(withoutPart(MARLA, 'pelvis')).toBe(MARLA);
  });
});

describe('a mirror', () => {
  it('knows sides by the beginning of a name', () => {
    expect([sideOf('leftKnee'), sideOf('RightEar'), sideOf('head')]).toEqual(['left', 'right', null]);
    expect([otherSide('leftKnee'), otherSide('RightEar'), otherSide('head')]).toEqual(['rightKnee', 'LeftEar', 'head']);
  });

  it('changes nothing where both sides are alike already', () => {
    for (const { armature } of EXAMPLES) {
      const next = mirrored(armature, 'left');
      expect(completeArmature(checkArmature(next)).bones, armature.name).toEqual(completeArmature(armature).bones);
      expect(completeArmature(next).joints.map((j) => j.axis), armature.name).toEqual(completeArmature(armature).joints.map((j) => j.axis));
    }
  });

  it('turns a limb to the mirrored place when its joint is turned by the same angle', () => {
    // The whole point of turning axes back: equal angles left and right make a mirrored pose.
    const odd = withBone(withJoint(MARLA, 'leftElbow', { kind: 'hinge', axis: [0.3, 0.5, 0.8] }), 'leftElbow', { along: [0.2, -1, -0.3], sole: { outlineMm: [[0, 0], [5, -2], [4, 3]], dropMm: 2 } });
    const both = completeArmature(checkArmature(mirrored(odd, 'left')));
    const turned = Float64Array.from(both.joints.flatMap((joint) => (joint.name.endsWith('Elbow') ? fromAxisAngle(joint.axis, 0.7) : IDENTITY)));
    const pose = poseOf(both, turned, 0, [0, 0, 0]);
    const end = (bone: string): readonly number[] => {
      const p = both.bones.findIndex((b) => b.name === bone);
      return onStage(pose, p, figureOf(both).parts[p]!.toMm);
    };
    const [l, r] = [end('leftForearm'), end('rightForearm')];
    expect([r[0], r[1], -r[2]!].map((v) => Math.round(v! * 1e6))).toEqual(l.map((v) => Math.round(v * 1e6)));
    // Soles go round in the same sense after mirroring.
    const area = (name: string): number => {
      const c = both.bones.find((b) => b.name === name)!.sole!.outlineMm;
      return c.reduce((sum, [x, y], i) => sum + x * c[(i + 1) % c.length]![1] - y * c[(i + 1) % c.length]![0], 0);
    };
    expect(area('rightForearm')).toBeCloseTo(area('leftForearm'), 9);
  });

  it('turns limits of balls the other way where the mirror does, and brings what only one side has', () => {
    const oneEar = withPart(withJoint(MARLA, 'leftShoulder', { limitsDeg: { forward: [-10, 90], up: [-20, 30], right: [-40, 50] } }), 'head', 'leftEar').armature;
    const next = checkArmature(mirrored(oneEar, 'left'));
    expect(next.joints.find((j) => j.name === 'rightShoulder')?.limitsDeg).toEqual({ forward: [-90, 10], up: [-30, 20], right: [-40, 50] });
    expect(next.joints.some((j) => j.name === 'rightEar')).toBe(true);
    // And the other way round the ear that the right hasn't is taken off.
    const none: Armature = mirrored(oneEar, 'right');
    expect(checkArmature(none).joints.some((j) => j.name === 'leftEar')).toBe(false);
  });
});
