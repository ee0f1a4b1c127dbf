/** The whole judgement on poses whose answer one can work out. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { VERDICTS, type Balance } from '../../src/balance/balance.ts';
import { massOnSet, weightsOf } from '../../src/balance/puppetMass.ts';
import { wayOf } from '../../src/balance/words.ts';
import { fromAxisAngle, fromRotationVector, rotate, type Quat } from '../../src/numeric/quaternion.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { UNSURE_HIDDEN, UNSURE_TURN } from '../../src/motion/trust/unsure.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { randomOf } from '../../scripts/balance/physics/randomPoses.ts';
import { judgedRow, sourcesOf } from './judged.ts';

const G = 9.81;
const marla = completeArmature(MARLA);
const verdicts = (balance: Balance): string[] => [...balance.standVerdict].map((index) => VERDICTS[index]!);
const moves = (balance: Balance): string[] => [...balance.moveVerdict].map((index) => VERDICTS[index]!);
const leftOnly = (foot: string): boolean => foot === 'leftFoot';
const always = { fromS: -1, toS: 1000 };

describe('the puppet’s centre of mass', () => {
  it('is the sum by hand of two sticks: 3 kg at a quarter of 0.4 m upright, 1 kg at half of 0.2 m forward, (25, 175, 0) mm', () => {
    const sticks: Armature = {
      format: 'nudgebook-armature', version: 2, name: 'Two sticks',
      bones: [
        { name: 'post', lengthMm: 400, along: [0, 1, 0], massG: 3000, massAt: 0.25 }, { name: 'arm', lengthMm: 200, along: [1, 0, 0], massG: 1000, massAt: 0.5 },
      ],
      joints: [{ name: 'post', parent: null, child: 'post' }, { name: 'arm', parent: 'post', child: 'arm' }],
    };
    const complete = completeArmature(sticks);
    const { massMm, massG } = massOnSet(complete, weightsOf(complete, []), { rotations: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0), rootMm: new Float64Array(3) }, new Float64Array(1));
    expect([...massMm]).toEqual([25, 175, 0]);
    expect(massG[0]).toBe(4000);
  });

  it('is what a slow sum over chains of rotations gives, props and all, for any pose', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 1e6 }), fc.boolean(), (seed, withProp) => {
      const random = randomOf(seed);
      const turns = marla.joints.map((): Quat => fromRotationVector([3 * random() - 1.5, 3 * random() - 1.5, 3 * random() - 1.5]));
      const props = withProp ? [{ name: 'jar', bone: 'leftHand', atMm: [3, -20, 5] as const, massG: 40, ...always }] : [];
      const { massMm } = judgedRow({ steps: 1, turn: (name) => turns[marla.joints.findIndex((joint) => joint.name === name)] }, { props });
      // each point carried up its own chain, one joint after the other
      const place = (bone: number, point: readonly [number, number, number]): readonly [number, number, number] => {
        const [x, y, z] = rotate(turns[bone]!, point);
        const { parentIndex, at, offsetMm } = marla.joints[bone]!;
        if (parentIndex < 0) return [x, y + marla.rootHeightMm, z];
        const { along, lengthMm } = marla.bones[parentIndex]!;
        return place(parentIndex, [x + along[0] * lengthMm * at + offsetMm[0], y + along[1] * lengthMm * at + offsetMm[1], z + along[2] * lengthMm * at + offsetMm[2]]);
      };
      const parts = marla.bones.map(({ along, lengthMm, massAt, massG }, p) => ({ massG, at: place(p, [along[0] * lengthMm * massAt, along[1] * lengthMm * massAt, along[2] * lengthMm * massAt]) }));
      if (withProp) parts.push({ massG: 40, at: place(marla.bones.findIndex(({ name }) => name === 'leftHand'), [3, -20, 5]) });
      const whole = parts.reduce((sum, { massG }) => sum + massG, 0);
      for (let c = 0; c < 3; c++) expect(Math.abs(parts.reduce((sum, { massG, at }) => sum + massG * at[c]!, 0) / whole - massMm[c]!)).toBeLessThan(1e-9);
    }), { numRuns: 40 });
  });

  it('a heavy head lifts it, a jar in the left hand draws it to the left, only while it is held', () => {
    const heavy = { ...MARLA, bones: MARLA.bones.map((bone) => (bone.name === 'head' ? { ...bone, massG: 150 } : bone)) };
    expect(judgedRow({ steps: 1, armature: heavy }).massMm[1]!).toBeGreaterThan(judgedRow({ steps: 1 }).massMm[1]! + 20);
    const held = judgedRow({ steps: 3 }, { props: [{ name: 'jar', bone: 'leftHand', atMm: [0, -20, 0], massG: 40, fromS: 0.03, toS: 0.05 }] });
    const by = (40 * (0 - 27)) / 360; // the hand hangs 27 mm beside the middle; Z is to her right
    expect([held.massMm[2]!, held.massMm[5]!, held.massMm[8]!]).toEqual([expect.closeTo(0, 9), expect.closeTo(by, 9), expect.closeTo(0, 9)]);
    expect(held.massG).toBeCloseTo(320, 9);
    // picking it up is no speed
    const kept = judgedRow({ steps: 3 }, { props: [{ name: 'jar', bone: 'leftHand', atMm: [0, -20, 0], massG: 40, fromS: 0.03, toS: 9 }] });
    expect([kept.movedMm[1]!, kept.movedMm[3]!, kept.movedMm[5]!]).toEqual([expect.closeTo(0, 9), expect.closeTo(by, 9), expect.closeTo(by, 9)]);
  });
});

describe('would it stand', () => {
  it('upright on both feet it does; the margin is that of the soles drawn by hand', () => {
    const { standMm, support, massMm, standShare } = judgedRow({ steps: 1 });
    // soles of 32 mm: 10.7 mm behind the ankle, corners cut at the front; hips 14 mm to either side
    const xs = [...support[0]!].filter((_, i) => i % 2 === 0);
    expect(Math.min(...xs)).toBeCloseTo(-10.7, 9);
    expect(Math.max(...xs)).toBeCloseTo(32, 9);
    expect(standMm[0]).toBeCloseTo(massMm[0]! + 10.7, 9);
    expect(standShare[0]).toBeCloseTo(standMm[0]! / 12.8, 1);
    expect(verdicts(judgedRow({ steps: 1 }))).toEqual(['holds']);
  });

  it('upright over the middle between the feet but on one foot alone it falls to the free side; moved over the foot it does not', () => {
    const aside = judgedRow({ steps: 1, stands: leftOnly }, { corrections: [] });
    expect(aside.standMm[0]!).toBeLessThan(-7);
    expect(wayOf(aside.towardDeg[0]!)).toBe('left');
    const over = judgedRow({ steps: 1, stands: leftOnly, turn: (joint) => (joint === 'rightHip' ? fromAxisAngle([0, 0, 1], 0.6) : undefined) });
    expect(over.standMm[0]!).toBeGreaterThan(aside.standMm[0]!);
  });

  it('the moment about the edge is m·g·d, and the pull on the tie-down balances it with an error more', () => {
    const one = judgedRow({ steps: 4, stands: leftOnly });
    const outMm = -one.standMm[0]!;
    expect(one.tippingNmm[0]).toBeCloseTo(0.32 * G * outMm, 9);
    const [need] = one.hardware;
    expect(need).toMatchObject({ foot: 'leftFoot', fromStep: 0, toStep: 3 });
    expect(need!.tippingNmm).toBeCloseTo(0.32 * G * outMm, 9);
    expect(need!.mostNmm).toBeCloseTo(0.32 * G * (outMm + one.marginSigmaMm[0]!), 9);
    // the edge is the inner side of the left sole, which runs from 5.1 to 6.4 mm beside its middle line
    expect(need!.holdN).toBeGreaterThan(need!.mostNmm / 6.4);
    expect(need!.holdN).toBeLessThan(need!.mostNmm / 5.1);
  });

  it('a sole that cannot be tied down leaves a rig, with the whole weight', () => {
    const loose = { ...MARLA, bones: MARLA.bones.map((bone) => ({ ...bone, tieDown: false })) };
    const [need] = judgedRow({ steps: 1, armature: loose, stands: leftOnly }).hardware;
    expect(need).toMatchObject({ foot: null, holdN: expect.closeTo(0.32 * G, 6) as number });
  });

  it('a tie-down makes it tied, while it lasts', () => {
    const tied = judgedRow({ steps: 4, stands: leftOnly }, { tieDowns: [{ foot: 'leftFoot', fromS: 0, toS: 0.05 }] });
    expect(verdicts(tied)).toEqual(['tied', 'tied', expect.not.stringMatching('tied'), expect.not.stringMatching('tied')]);
    expect(judgedRow({ steps: 1, stands: leftOnly }, { tieDowns: [{ foot: 'rightFoot', ...always }] }).notes.join()).toContain('the tie-down holds nothing');
  });

  it('a hand on the bench carries; a person’s word goes before the take’s', () => {
    const alone = judgedRow({ steps: 1, stands: leftOnly });
    const hand = judgedRow({ steps: 1, stands: leftOnly }, { touches: [{ bone: 'rightHand', ...always, touches: true }] });
    expect(hand.touchNames).toEqual(['leftFoot', 'rightFoot', 'rightHand']);
    expect(hand.standMm[0]!).toBeGreaterThan(alone.standMm[0]!);
    const both = judgedRow({ steps: 1, stands: leftOnly }, { touches: [{ bone: 'rightFoot', ...always, touches: true }] });
    expect(both.standMm[0]).toBeCloseTo(judgedRow({ steps: 1 }).standMm[0]!, 9);
    expect(verdicts(judgedRow({ steps: 1 }, { touches: [{ bone: 'rightFoot', ...always, touches: false }, { bone: 'leftFoot', ...always, touches: false }] }))).toEqual(['not known']);
  });

  it('on one leg: spans with the worst step', () => {
    const balance = judgedRow({ steps: 9, stands: (foot, s) => foot === 'leftFoot' || s < 2 || s > 6, turn: (joint, s) => (joint === 'spine' ? fromAxisAngle([1, 0, 0], s === 4 ? 0.5 : 0) : undefined) });
    const { oneLeg, standMm } = balance;
    expect(oneLeg).toMatchObject([{ foot: 'leftFoot', fromStep: 2, toStep: 6 }]);
    const least = [2, 3, 4, 5, 6].reduce((a, b) => (standMm[b]! < standMm[a]! ? b : a));
    expect(oneLeg[0]).toMatchObject({ worstStep: least, worstMm: standMm[least] });
  });
});

describe('in motion', () => {
  it('adds v/ω₀ at the size that is read: a puppet that reads as four times as tall has twice the pendulum time', () => {
    const slide = (heightM: number | null): Balance => judgedRow({ steps: 5, heightM, shiftMm: (s) => [s * 2, 0, 0] });
    const lead = (b: Balance): number => b.movedMm[4]! - b.massMm[6]!;
    // by hand: 48 mm/s; the pendulum is 1.2 × the hips' height, at 1.7 m of 280 mm
    const lengthM = (1.2 * marla.rootHeightMm * 1.7) / marla.heightMm / 1000 * 1000;
    expect(lead(slide(null))).toBeCloseTo(48 / Math.sqrt(G / lengthM), 9);
    expect(lead(slide(6.8)) / lead(slide(null))).toBeCloseTo(2, 9);
    // and the margin of standing does not care
    expect(slide(6.8).standMm[2]).toBe(slide(null).standMm[2]);
  });

  it('a fall that the next foot catches is a stride', () => {
    const stride = judgedRow({ steps: 12, stepS: 1 / 12, shiftMm: (s) => [s * 6, 0, 0], stands: (foot, s) => (foot === 'leftFoot') === (s < 6) || s === 6 });
    expect(moves(stride)).toContain('caught');
  });
});

describe('what was not measured is not judged', () => {
  const nothing = (balance: Balance, sentence: RegExp): void => {
    expect(new Set([...verdicts(balance), ...moves(balance)])).toEqual(new Set(['not known']));
    for (const numbers of [balance.standMm, balance.standShare, balance.moveMm, balance.towardDeg, balance.tippingNmm, balance.marginSigmaMm]) expect([...numbers].every(Number.isNaN)).toBe(true);
    expect(balance.notes.join('\n')).toMatch(sentence);
    expect(balance.hardware).toEqual([]);
  };

  it('no weight', () => nothing(judgedRow({ steps: 2, armature: { ...MARLA, totalMassG: undefined, bones: MARLA.bones.map((bone) => ({ ...bone, massG: 0 })) } }), /weighs nothing/));
  it('no sole', () => nothing(judgedRow({ steps: 2, armature: { ...MARLA, bones: MARLA.bones.map((bone) => ({ ...bone, sole: null })) } }), /no sole/));
  it('no foot that stands', () => nothing(judgedRow({ steps: 2, stands: () => false }), /no foot that stands/));
  it('soles without area', () => {
    const line = { outlineMm: [[-10, 0], [0, 0], [30, 0]] as const, dropMm: 14 };
    nothing(judgedRow({ steps: 2, stands: leftOnly, armature: { ...MARLA, bones: MARLA.bones.map((bone) => (bone.sole === null || bone.sole === undefined ? bone : { ...bone, sole: line })) } }), /no area/);
  });
  it('both feet hidden', () => nothing(judgedRow({ steps: 2, confidence: 0.1, unsure: (joint) => (joint.endsWith('Ankle') ? UNSURE_HIDDEN : 0) }), /was hidden/));

  it('one foot hidden: judged where the other is enough, told by a person, or not at all', () => {
    const row = { steps: 1, confidence: 0.1, unsure: (joint: string): number => (joint === 'rightAnkle' ? UNSURE_HIDDEN : 0) };
    nothing(judgedRow(row), /rightFoot was hidden/);
    expect(verdicts(judgedRow(row, { touches: [{ bone: 'rightFoot', ...always, touches: true }] }))).toEqual(['holds']);
    const wide = { ...MARLA, bones: MARLA.bones.map((bone) => (bone.name === 'leftFoot' ? { ...bone, sole: { outlineMm: [[-60, -60], [60, -60], [60, 60], [-60, 60]] as const, dropMm: 14 } } : bone)) };
    expect(verdicts(judgedRow({ ...row, armature: wide }))).toEqual(['holds']);
  });

  it('a knee on the floor of which nobody spoke', () => {
    const kneel = { steps: 1, stands: leftOnly, shiftMm: () => [0, -70, 0] as const, turn: (joint: string): Quat | undefined => (joint === 'rightKnee' ? fromAxisAngle([0, 0, 1], -1.5) : undefined) };
    const silent = judgedRow(kneel);
    expect(verdicts(silent)).toEqual(['not known']);
    expect(silent.notes.join()).toMatch(/comes down to the floor/);
    expect(verdicts(judgedRow(kneel, { touches: [{ bone: 'rightThigh', ...always, touches: true }, { bone: 'leftThigh', ...always, touches: false }] }))).not.toEqual(['not known']);
  });

  it('settings that name bones this puppet does not have', () => {
    const { notes } = judgedRow({ steps: 1 }, { props: [{ name: 'jar', bone: 'tail', atMm: [0, 0, 0], massG: 5, ...always }], tieDowns: [{ foot: 'leftHand', ...always }], touches: [{ bone: 'wing', ...always, touches: true }] });
    expect(notes.join('\n')).toMatch(/prop jar[^]*wing[^]*leftHand was tied down and has no sole/);
  });
});

describe('its error', () => {
  it('grows with what is unsure, and where a correction is applied only the hand’s is left', () => {
    const plain = judgedRow({ steps: 1 });
    const doubtful = judgedRow({ steps: 1, errorDeg: 20, unsure: (joint) => (joint === 'spine' ? 1 : 0) });
    const correction = { id: 'a', ...always, marginMm: 3, applied: true, turns: [], shift: [] };
    const corrected = judgedRow({ steps: 1 }, { corrections: [correction] });
    expect(doubtful.massSigmaMm[0]!).toBeGreaterThan(plain.massSigmaMm[0]! + 2);
    // a straight limb that turns about itself moves no weight
    expect(judgedRow({ steps: 1, errorDeg: 20, unsure: () => UNSURE_TURN }).massSigmaMm).toEqual(plain.massSigmaMm);
    expect(corrected.massSigmaMm[0]!).toBeLessThan(2.5);
    expect(judgedRow({ steps: 1 }, { corrections: [{ ...correction, applied: false }] }).massSigmaMm[0]).toBe(plain.massSigmaMm[0]);
  });

  it('of the hand is what joints turned at random by half their smallest moves make of the centre of mass', () => {
    const random = randomOf(7);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const correction = { id: 'a', ...always, marginMm: 3, applied: true, turns: [], shift: [] };
    const said = judgedRow({ steps: 1, stands: leftOnly }, { corrections: [correction] });
    const { armature } = sourcesOf({ steps: 1 });
    const foot = armature.bones.findIndex(({ name }) => name === 'leftFoot');
    const steps = 4000;
    const turn = (joint: string): Quat => {
      const half = (armature.joints.find(({ name }) => name === joint)!.smallestDeg / 2) * (Math.PI / 180);
      return fromRotationVector([normal() * half, 0, normal() * half]);
    };
    const wobbly = sourcesOf({ steps, turn: (joint) => (joint === 'pelvis' ? undefined : turn(joint)) });
    const { massMm } = massOnSet(armature, weightsOf(armature, []), wobbly.ordered, wobbly.steps.filmTimeS);
    // seen from the standing foot, which the floor holds: turn the whole back by how the foot has turned
    const along: number[] = [];
    for (let s = 0; s < steps; s++) {
      let at: readonly [number, number, number] = [0, 0, 0];
      let back: Quat = [1, 0, 0, 0];
      for (let p = foot; p >= 0; p = armature.joints[p]!.parentIndex) {
        const i = (s * armature.joints.length + p) * 4;
        const q = [...wobbly.ordered.rotations.subarray(i, i + 4)] as unknown as Quat;
        const { parentIndex, at: place, offsetMm } = armature.joints[p]!;
        const parent = armature.bones[parentIndex];
        const [x, y, z] = rotate(q, at);
        at = parent === undefined ? [x, y + armature.rootHeightMm, z] : [x + offsetMm[0] + parent.along[0] * parent.lengthMm * place, y + offsetMm[1] + parent.along[1] * parent.lengthMm * place, z + offsetMm[2] + parent.along[2] * parent.lengthMm * place];
        back = [q[0] * back[0] - q[1] * back[1] - q[2] * back[2] - q[3] * back[3], q[0] * back[1] + q[1] * back[0] + q[2] * back[3] - q[3] * back[2], q[0] * back[2] - q[1] * back[3] + q[2] * back[0] + q[3] * back[1], q[0] * back[3] + q[1] * back[2] - q[2] * back[1] + q[3] * back[0]];
      }
      along.push(rotate([back[0], -back[1], -back[2], -back[3]], [massMm[s * 3]! - at[0], massMm[s * 3 + 1]! - at[1], massMm[s * 3 + 2]! - at[2]])[0]);
    }
    const mean = along.reduce((sum, v) => sum + v, 0) / steps;
    const sigma = Math.sqrt(along.reduce((sum, v) => sum + (v - mean) ** 2, 0) / steps);
    // hinges turn about one axis only, so all axes for all joints is a little more than what comes
    expect(sigma / said.massSigmaMm[0]!).toBeGreaterThan(0.85);
    expect(sigma / said.massSigmaMm[0]!).toBeLessThan(1.1);
  });
});

it('ways: front is 0, left of the picture 90, round and round', () => {
  expect([0, 44, 90, 181, -90, 359, -137].map(wayOf)).toEqual(['front', 'front left', 'left', 'back', 'right', 'front', 'back right']);
  expect(wayOf(Number.NaN)).toBeNull();
});
