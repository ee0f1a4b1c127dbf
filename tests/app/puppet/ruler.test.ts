import { describe, expect, it } from 'vitest';
import { rulerArmature, rulerDefaults, type RulerMeasures } from '../../../src/app/screens/puppet/edits/ruler.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { checkArmature } from '../../../src/puppet/parseArmature.ts';

const TWO: RulerMeasures = { legMm: 120, armMm: 90, trunkMm: null, headMm: null, shouldersMm: null, hipsMm: null, footMm: null, weightG: null };

const sum = (armature: ReturnType<typeof rulerArmature>, names: readonly string[]): number =>
  names.reduce((all, name) => all + armature.bones.find((b) => b.name === name)!.lengthMm, 0);

describe('a puppet from two lengths', () => {
  it('has the very leg and arm that were measured', () => {
    const puppet = checkArmature(rulerArmature('Test', TWO));
    const drop = puppet.bones.find((b) => b.name === 'leftFoot')!.sole!.dropMm;
    expect(sum(puppet, ['leftThigh', 'leftShank']) + drop).toBeCloseTo(120, 9);
    expect(sum(puppet, ['rightUpperArm', 'rightForearm', 'rightHand'])).toBeCloseTo(90, 9);
    // The root lies between the hips, so its height at rest is the leg.
    expect(completeArmature(puppet).rootHeightMm).toBeCloseTo(120, 9);
  });

  it('says of every length that it is a default, until one is measured', () => {
    expect(rulerArmature('Test', TWO).bones.every((b) => b.lengthFrom === 'proportion')).toBe(true);
    const more = rulerArmature('Test', { ...TWO, footMm: 30, weightG: 200 });
    expect(more.bones.filter((b) => b.lengthFrom === undefined).map((b) => b.name)).toEqual(['leftFoot', 'rightFoot']);
    expect(completeArmature(more).totalMassG).toBeCloseTo(200, 9);
  });

  it('takes what is measured instead of the proportions', () => {
    const by = rulerDefaults(120);
    // Of a person of 1741 mm with a leg of 930.4 mm; 515.5 mm of trunk.
    expect(by.trunkMm).toBeCloseTo((515.5 / 930.4) * 120, 0);
    const puppet = rulerArmature('Test', { ...TWO, trunkMm: 80, headMm: 60, shouldersMm: 50, hipsMm: 24 });
    expect(sum(puppet, ['pelvis', 'abdomen', 'chest'])).toBeCloseTo(80, 9);
    expect(sum(puppet, ['neck', 'head'])).toBeCloseTo(60, 9);
    expect(puppet.joints.find((j) => j.name === 'rightShoulder')?.offsetMm).toEqual([0, 0, 25]);
    expect(puppet.joints.find((j) => j.name === 'leftHip')?.offsetMm).toEqual([0, 0, -12]);
  });
});
