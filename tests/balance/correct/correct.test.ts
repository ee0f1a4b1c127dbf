/** Corrections: each one that is found reaches its margin, within limits, without a jump; asked for again there is nothing to do. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../../scripts/serve/projectFolder.ts';
import { leastChange } from '../../../src/balance/correct/leastChange.ts';
import { MEANS } from '../../../src/balance/correct/means.ts';
import { changeAt, profileOver } from '../../../src/balance/correct/profile.ts';
import { correctionTurns } from '../../../src/balance/correctionTurns.ts';
import { DEFAULT_POISE, type PoiseCorrection } from '../../../src/balance/poiseSettings.ts';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import { angleOf, conjugate, multiply, readQuat } from '../../../src/numeric/quaternion.ts';
import { createPlanner } from '../../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { FLAG_FOOT_SHORT } from '../../../src/puppet/puppetPoses.ts';

describe('the least change', () => {
  it('of one amount is just what its demand needs; of two it is shared by their weights', () => {
    expect([...leastChange([1, 1], [{ at: [0], a: [2], c: 6 }])!]).toEqual([3, 0]);
    // 1·x + 1·y ≥ 3, costs x² and 2y²: x : y = 2 : 1 (Lagrange by hand)
    const [x, y] = leastChange([1, 2], [{ at: [0, 1], a: [1, 1], c: 3 }])!;
    expect(x).toBeCloseTo(2, 3);
    expect(y).toBeCloseTo(1, 3);
  });

  it('keeps every demand or says that it can’t', () => {
    const some = fc.array(fc.record({ a: fc.tuple(fc.integer({ min: -5, max: 5 }), fc.integer({ min: -5, max: 5 })), c: fc.integer({ min: -8, max: 6 }) }), { minLength: 1, maxLength: 8 });
    fc.assert(fc.property(some, (demands) => {
      const q = leastChange([1, 1], demands.map(({ a, c }) => ({ at: [0, 1], a, c })));
      if (q === null) return;
      for (const { a, c } of demands) expect(a[0] * q[0]! + a[1] * q[1]!).toBeGreaterThanOrEqual(c - 2e-3);
    }), { numRuns: 5000 });
    expect(leastChange([1], [{ at: [0], a: [1], c: 2 }, { at: [0], a: [-1], c: -1 }])).toBeNull();
  });

  it('is the least of all that keep them: of two numbers it lies on no demand, on one, or on two, which are gone through', () => {
    const number = fc.integer({ min: -5, max: 5 });
    const some = fc.array(fc.record({ a: fc.tuple(number, number), c: fc.integer({ min: -8, max: 6 }) }), { minLength: 1, maxLength: 7 });
    const weight = fc.integer({ min: 1, max: 9 });
    fc.assert(fc.property(some, weight, weight, (demands, w0, w1) => {
      const found = leastChange([w0, w1], demands.map(({ a, c }) => ({ at: [0, 1], a, c })));
      const places: [number, number][] = [[0, 0]];
      for (const { a: [a, b], c } of demands) {
        const stiff = (a * a) / w0 + (b * b) / w1;
        if (stiff > 0) places.push([(c * a) / w0 / stiff, (c * b) / w1 / stiff]);
        for (const { a: [d, e], c: f } of demands) if (a * e !== b * d) places.push([(c * e - b * f) / (a * e - b * d), (a * f - c * d) / (a * e - b * d)]);
      }
      const cost = ([x, y]: readonly [number, number]): number => w0 * x * x + w1 * y * y;
      const kept = places.filter(([x, y]) => demands.every(({ a, c }) => a[0] * x + a[1] * y >= c - 1e-9));
      if (kept.length === 0) expect(found).toBeNull();
      else expect(cost([found![0]!, found![1]!])).toBeCloseTo(Math.min(...kept.map(cost)), 4);
    }), { numRuns: 3000, seed: 5 });
  });

  it('counts a place that a demand names twice with the sum', () => {
    expect([...leastChange([1], [{ at: [0, 0], a: [1, 1], c: 4 }])!]).toEqual([2]);
  });
});

describe('a profile', () => {
  it('begins and ends with nothing, and is whole where the plan ends', () => {
    const profile = profileOver(20, 30, 9, 100);
    const ones = new Float64Array(profile.count).fill(1);
    expect(changeAt(profile, ones, 1, 11)[0]).toBeCloseTo(0, 9);
    expect(changeAt(profile, ones, 1, 25)[0]).toBeCloseTo(1, 9);
    expect(changeAt(profile, ones, 1, 39)[0]).toBeCloseTo(0, 9);
    const atStart = profileOver(0, 10, 9, 100);
    expect(changeAt(atStart, new Float64Array(atStart.count).fill(1), 1, 0)[0]).toBeCloseTo(1, 9);
  });
});

describe('a correction that is kept', () => {
  const keys = [{ timeS: 1, turnDeg: [0, 0, 0] as const }, { timeS: 2, turnDeg: [6, 0, -3] as const }, { timeS: 3, turnDeg: [0, 0, 0] as const }];
  const one: PoiseCorrection = { id: 'a', fromS: 2, toS: 2, marginMm: 3, applied: true, turns: [{ joint: 'spine', keys }, { joint: 'tail', keys }], shift: [{ timeS: 2, shiftMm: [1, 0, 2] }] };

  it('is exact on its keys and nothing outside; switched off it adds nothing; joints that are not there are left out', () => {
    const added = correctionTurns([one], Float64Array.of(0.5, 1, 2, 3, 9), MARLA)!;
    const spine = completeArmature(MARLA).joints.findIndex(({ name }) => name === 'spine');
    const width = completeArmature(MARLA).joints.length;
    const at = (s: number): number[] => [...added.turnDeg.slice((s * width + spine) * 3, (s * width + spine) * 3 + 3)];
    expect(at(2)).toEqual([6, 0, -3]);
    for (const s of [0, 1, 3, 4]) expect(at(s)).toEqual([0, 0, 0]);
    expect(correctionTurns([{ ...one, applied: false }], Float64Array.of(2), MARLA)).toBeNull();
  });
});

describe('corrections of the demo’s reach', () => {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  const body = fitTake(track, 1);
  const planner = createPlanner();
  const plan = planner.plan(track, MARLA, DEFAULT_SETTINGS, { body });
  const armature = completeArmature(MARLA);
  const width = armature.joints.length;
  const stepTurn = (rotations: Float64Array, s: number, p: number): number =>
    (angleOf(multiply(readQuat(rotations, s * width + p), conjugate(readQuat(rotations, (s - 1) * width + p)))) * 180) / Math.PI;
  const largest = armature.joints.map(({ smallestDeg }, p) => {
    let most = smallestDeg;
    for (let s = 1; s < plan.stepCount; s++) most = Math.max(most, stepTurn(plan.rotations, s, p));
    return most;
  });

  const anyAsk = fc.record({ from: fc.integer({ min: 18, max: 40 }), steps: fc.integer({ min: 1, max: 14 }), tenths: fc.integer({ min: 5, max: 40 }), means: fc.subarray([...MEANS], { minLength: 1 }) });

  it('each that is found reaches its margin as ordered, within limits, with no step larger than the plan’s own largest', () => {
    let found = 0;
    fc.assert(fc.property(anyAsk, ({ from, steps, tenths, means }) => {
      const [fromStep, toStep, marginMm] = [from, Math.min(46, from + steps - 1), tenths / 10];
      const result = planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'c', fromStep, toStep, marginMm, means }, { body });
      if (result.kind !== 'found') {
        expect(result.sentence.length).toBeGreaterThan(20);
        return;
      }
      found += 1;
      const poise = { ...DEFAULT_POISE, corrections: [result.correction] };
      const now = planner.plan(track, MARLA, DEFAULT_SETTINGS, { body, poise });
      for (let s = fromStep; s <= toStep; s++) expect(now.balance.standMm[s]!).toBeGreaterThanOrEqual(marginMm - 1e-9);
      for (let s = 1; s < now.stepCount; s++) for (let p = 0; p < width; p++) expect(stepTurn(now.rotations, s, p)).toBeLessThanOrEqual(largest[p]! + 0.06);
      for (let i = 0; i < now.flags.length; i++) expect(now.flags[i]! & FLAG_FOOT_SHORT & ~plan.flags[i]!).toBe(0);
      // standing feet stay where they were
      expect(now.balance.touching).toEqual(plan.balance.touching);
      const again = planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'd', fromStep, toStep, marginMm, means }, { body, poise });
      expect(again.kind).toBe('nothing');
      // switched off, the plan is what it was
      const off = planner.plan(track, MARLA, DEFAULT_SETTINGS, { body, poise: { ...poise, corrections: [{ ...result.correction, applied: false }] } });
      expect(off.orderedAngleDeg).toEqual(plan.orderedAngleDeg);
    }), { numRuns: 30, seed: 7 });
    expect(found).toBeGreaterThan(10);
  }, 120_000);

  it('of more than the sole is wide can’t be had, and what would hold it is said', () => {
    const result = planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'c', fromStep: 25, toStep: 30, marginMm: 20, means: MEANS }, { body });
    expect(result).toMatchObject({ kind: 'cannot', tieDown: 'leftFoot' });
    if (result.kind === 'cannot') {
      expect(result.sentence).toContain('tie-down');
      expect(result.reachableMm).toBeLessThan(7);
      // the trunk's weight lies about the pelvis; a raised arm and thigh bring it no farther than the spine
      expect(['pelvis', 'spine']).toContain(result.rigAt);
    }
  });

  it('where nothing stands there is nothing to correct', () => {
    const free = { ...DEFAULT_POISE, touches: ['leftFoot', 'rightFoot'].map((bone) => ({ bone, fromS: 0, toS: 99, touches: false })) };
    expect(planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'c', fromStep: 25, toStep: 30, marginMm: 2, means: MEANS }, { body, poise: free }).kind).toBe('nothing');
  });
});
