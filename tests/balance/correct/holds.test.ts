/** What would hold a puppet that no change holds: by hand sums, with a tray that pulls Marla to one side. */
import { describe, expect, it } from 'vitest';
import { cannotHold } from '../../../src/balance/correct/cannotHold.ts';
import type { CorrectionSources } from '../../../src/balance/correct/correctionShapes.ts';
import { deepest } from '../../../src/balance/correct/base.ts';
import { whatHolds } from '../../../src/balance/correct/whatHolds.ts';
import { hullOf } from '../../../src/balance/hull.ts';
import type { Prop } from '../../../src/balance/poiseSettings.ts';
import { weightsOf } from '../../../src/balance/puppetMass.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { GRAVITY_M_S2 } from '../../../src/puppet/timeScale.ts';
import { judgedRow, sourcesOf, type Row } from '../judged.ts';

/** Marla at rest with a tray so many millimetres to her right (left: below 0). */
function withTray(rightMm: number, massG: number, stands: (foot: string) => boolean = () => true): CorrectionSources {
  const tray: Prop = { name: 'tray', bone: 'pelvis', atMm: [0, 0, rightMm], massG, fromS: -9, toS: 9 };
  const row: Row = { steps: 3, stands };
  const { armature, moved, steps } = sourcesOf(row);
  const balance = judgedRow(row, { props: [tray] });
  return { armature, moved, balance, weights: weightsOf(armature, [tray]), sourceTimeS: steps.sourceTimeS, trial: () => ({ moved, balance }) };
}

const grams = completeArmature(MARLA).bones.reduce((sum, { massG }) => sum + massG, 0);

describe('what would hold it', () => {
  it('is the foot farther from the edge over which it goes, whichever stands first in the list', () => {
    const [right, left] = [whatHolds(withTray(300, 80), [0, 1, 2], 4), whatHolds(withTray(-300, 80), [0, 1, 2], 4)];
    expect(right.foot).toMatchObject({ name: 'leftFoot', everywhere: true });
    expect(left.foot).toMatchObject({ name: 'rightFoot', everywhere: true });
    expect(left.foot!.pullN).toBeCloseTo(right.foot!.pullN, 9);
    expect(right.towardDeg).toBeCloseTo(90, -1);
    expect(left.towardDeg).toBeCloseTo(-right.towardDeg, 6);
  });

  it('has to hold the moment that is missing: m·g·(wanted − margin), over its lever or its height', () => {
    const sources = withTray(300, 80);
    const { momentNmm, pushN, rigAt, foot } = whatHolds(sources, [1], 4);
    const margin = sources.balance.standMm[1]!;
    expect(margin).toBeLessThan(0);
    expect(momentNmm).toBeCloseTo(((grams + 80) / 1000) * GRAVITY_M_S2 * (4 - margin), 9);
    // with the tray the centre of mass lies where her right arm hangs: about half of her 280 mm high
    expect(rigAt).toMatch(/^(pelvis|right(Forearm|Hand|UpperArm))$/);
    expect(pushN).toBeGreaterThan(momentNmm / 185);
    expect(pushN).toBeLessThan(momentNmm / 110);
    // between the middle of the left sole and the right sole's outer edge: the feet are as far apart as the hips, and half a sole
    const [l, r] = ['leftHip', 'rightHip'].map((name) => sources.armature.joints.find((joint) => joint.name === name)!.offsetMm[2]);
    const lever = momentNmm / foot!.pullN;
    expect(lever).toBeGreaterThan(r! - l!);
    expect(lever).toBeLessThan(r! - l! + 9);
  });

  it('is a rig alone where no foot that stands lies inside the edge, or nothing that stands can be tied', () => {
    const sources = withTray(300, 80);
    const untied = { ...sources, armature: { ...sources.armature, bones: sources.armature.bones.map((bone) => ({ ...bone, tieDown: false })) } };
    const { sentence, tieDown, tieDownN } = cannotHold(untied, { id: 'c', fromStep: 0, toStep: 2, marginMm: 4, means: [] }, [0, 1, 2], -1, 'No.');
    expect(tieDown).toBeNull();
    expect(tieDownN).toBeNull();
    expect(sentence).toContain('No foot that stands there could be tied down to hold it. Or a rig near the centre of mass');
  });

  it('says which way it goes and which way the rig pushes, against each other', () => {
    const { sentence, rigTowardDeg } = cannotHold(withTray(300, 80), { id: 'c', fromStep: 0, toStep: 2, marginMm: 4, means: [] }, [0, 1, 2], -1.25, 'No.');
    expect(sentence).toMatch(/^No\. The best that was found is −1\.3 mm of 4\.0 mm \(now −[\d.]+ mm\)\. At step 1 it goes to its right: [\d.]+ N·mm about that edge are missing\. A tie-down under the left foot would hold it with [\d.]+ N\. Or a rig near the centre of mass, at the [a-z ]+, pushes to its left \(right on the set\) with [\d.]+ N\. Estimates: take a multiple\.$/);
    expect(rigTowardDeg).toBeCloseTo(-90, -1);
  });
});

describe('how deep a base is', () => {
  it('is half the width of a rectangle, wherever it lies, and the incircle’s radius of a triangle', () => {
    expect(deepest(hullOf([100, 50, 170, 50, 170, 73, 100, 73]))).toBeCloseTo(11.5, 4);
    // sides 3, 4, 5: r = (3 + 4 − 5) / 2
    expect(deepest(hullOf([0, 0, 4, 0, 0, 3]))).toBeCloseTo(1, 4);
    expect(deepest(Float64Array.of(0, 0, 1, 1))).toBe(0);
  });
});
