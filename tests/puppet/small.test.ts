import { describe, expect, it } from 'vitest';
import type { Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { PIP } from '../../src/puppet/examples/child.ts';
import { curveValues } from '../../src/puppet/handCurve.ts';
import { openingOfTurns, turnsOfOpening } from '../../src/puppet/screw.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import { froudeNumber, speedOfEqualFroude, timeScaleOffered } from '../../src/puppet/timeScale.ts';
import { lengthText, parseLengthMm } from '../../src/puppet/units.ts';

describe('a joint on a screw', () => {
  const screw = { pitchMm: 0.5, leverMm: 9, starts: 1, squareAtDeg: 0, smallestTurns: 0.125 };
  it('follows the lead-screw formula: travel = lead × turns, and the lever’s tangent', () => {
    // ISO coarse pitch of an M3 thread is 0.5 mm: 4 turns move the nut by 2 mm; a lever of 9 mm then stands at atan(2/9)
    expect(openingOfTurns(screw, 4)).toBeCloseTo((Math.atan(2 / 9) * 180) / Math.PI, 12);
    expect(turnsOfOpening(screw, 45)).toBeCloseTo(18, 12);
    expect(turnsOfOpening({ ...screw, starts: 2 }, 45)).toBeCloseTo(9, 12);
    expect(turnsOfOpening({ ...screw, squareAtDeg: 10 }, 10)).toBe(0);
  });
  it('there and back gives the same opening', () => {
    for (let deg = -79; deg <= 79; deg += 1) expect(openingOfTurns(screw, turnsOfOpening(screw, deg))).toBeCloseTo(deg, 10);
  });
  it('its smallest move in degrees is an eighth of a turn at square', () => {
    const jaw = completeArmature(PIP).joints.find(({ name }) => name === 'jaw')!;
    expect(jaw.smallestDeg).toBeCloseTo((Math.atan(0.0625 / 9) * 180) / Math.PI, 10);
  });
});

describe('the time scale of dynamic similarity', () => {
  // Alexander & Jayes 1983, J Zool 201:135-152; figures of reference-values, section 5
  it('has the published Froude numbers and speeds', () => {
    expect(froudeNumber(1.4, 0.9)).toBeCloseTo(0.221996, 6);
    expect(froudeNumber(2, 0.9)).toBeCloseTo(0.453052, 6);
    expect(froudeNumber(0.5, 0.12)).toBeCloseTo(0.212368, 6);
    expect(speedOfEqualFroude(1.4, 0.9, 0.15)).toBeCloseTo(0.571548, 6);
    expect(timeScaleOffered(0.15, 0.9)).toBeCloseTo(0.408248, 6);
  });
  it('is the root of the size: four times as tall, half as fast', () => {
    expect(timeScaleOffered(6.96, 1.74)).toBeCloseTo(2, 12);
    expect(timeScaleOffered(1.74, 1.74)).toBe(1);
    // VES Handbook, appendix A: a model at 1:4 is shot at twice the rate, 1:16 at four times (trade practice)
    expect(timeScaleOffered(16, 1)).toBe(4);
  });
});

describe('lengths as people write them', () => {
  it.each([
    ['120', 120], ['120 mm', 120], ['12 cm', 120], ['0,12 m', 120], ['3 in', 76.2], ['3″', 76.2], ['3.5 in', 88.9], ['3 1/2 in', 88.9], ['1/4 in', 6.35], ['-5', -5],
  ])('%s', (text, mm) => expect(parseLengthMm(text)).toBeCloseTo(mm, 10));
  it.each(['', 'x', '3 ft', '1/0 in', '3 in 2'])('“%s” is none', (text) => expect(parseLengthMm(text)).toBeNull());
  it('a bare number is in the unit that is set; shown likewise', () => {
    expect(parseLengthMm('2', 'in')).toBeCloseTo(50.8, 10);
    expect([lengthText(76.2, 'in'), lengthText(120.04), lengthText(Number.NaN)]).toEqual(['3 in', '120 mm', '–']);
  });
});

describe('masses that nobody weighed', () => {
  it('of the standard figure are those of de Leva 1996, table 4: thighs 28.32 %, head and neck 6.94 %', () => {
    const { bones, totalMassG } = completeArmature({ ...STANDARD_ARMATURE, totalMassG: 1000 });
    const share = (...names: string[]): number => bones.filter(({ name }) => names.includes(name)).reduce((sum, { massG }) => sum + massG, 0) / totalMassG;
    expect(totalMassG).toBeCloseTo(1000, 9);
    // the table’s parts of one trunk and two of each limb add up to 100.00
    expect(share('leftThigh', 'rightThigh')).toBeCloseTo(0.2832, 4);
    expect(share('head', 'neck')).toBeCloseTo(0.0694, 4);
    expect(share('pelvis', 'abdomen', 'chest')).toBeCloseTo(0.4346, 4);
  });
  it('given masses stay; the others share what the total leaves', () => {
    const heavy: Armature = { ...STANDARD_ARMATURE, totalMassG: 500, bones: STANDARD_ARMATURE.bones.map((b) => (b.name === 'head' ? { ...b, massG: 100 } : b)) };
    const { bones, totalMassG } = completeArmature(heavy);
    expect(bones.find(({ name }) => name === 'head')!.massG).toBe(100);
    expect(totalMassG).toBeCloseTo(500, 9);
  });
  it('only lengths are needed: names give directions, hips and kinds', () => {
    const lean: Armature = {
      format: 'nudgebook-armature', version: 2, name: 'Lean',
      bones: [{ name: 'pelvis', lengthMm: 20 }, { name: 'leftThigh', lengthMm: 60 }, { name: 'leftShank', lengthMm: 60 }, { name: 'leftFoot', lengthMm: 30 }],
      joints: [
        { name: 'pelvis', parent: null, child: 'pelvis' }, { name: 'leftHip', parent: 'pelvis', child: 'leftThigh' },
        { name: 'leftKnee', parent: 'leftThigh', child: 'leftShank' }, { name: 'leftAnkle', parent: 'leftShank', child: 'leftFoot' },
      ],
    };
    const { joints, bones, rootHeightMm } = completeArmature(lean);
    expect(joints.map(({ kind }) => kind)).toEqual(['ball', 'ball', 'hinge', 'ball']);
    expect(joints[2]!.axis).toEqual([0, 0, -1]);
    expect(joints[1]!.offsetMm).toEqual([0, 0, -12]);
    expect(bones[3]!.sole).not.toBeNull();
    expect(rootHeightMm).toBeCloseTo(120 + 10.5, 10);
  });
});

describe('curves set by hand', () => {
  const key = (timeS: number, valueDeg: number, ease: 'smooth' | 'soft' | 'soft start' | 'soft end' | 'straight' | 'stay') => ({ timeS, valueDeg, ease });
  it.each([['soft', 0.5, 5], ['soft', 0.25, 1.5625], ['soft start', 0.5, 2.5], ['soft end', 0.5, 7.5], ['straight', 0.3, 3], ['stay', 0.9, 0]] as const)(
    '%s at %d', (ease, at, value) => expect(curveValues([key(0, 0, ease), key(1, 10, ease)], [at])[0]).toBeCloseTo(value, 12),
  );
  it('smooth is PCHIP (values of scipy in reference-values, section 3), and ends hold', () => {
    const keys = [0, 1, 2.5, 4, 6, 7].map((t, i) => key(t, [0, 0.5, 0.5, 3, 2, 2.5][i]!, 'smooth'));
    const [a, b, c, before, after] = curveValues(keys, [0.25, 3, 6.5, -1, 9]);
    expect([a, b, c, before, after].map((v) => Number(v!.toFixed(9)))).toEqual([0.1765625, 1.148148148, 2.145833333, 0, 2.5]);
  });
});
