/** Moves, pauses and leads against motions in which they are known. Steps are those of twos at 24: 1/12 s. */
import { describe, expect, it } from 'vitest';
import { syntheticMotion, trueAngleDeg, uniform, type TrueMove } from '../../../scripts/pace/syntheticMotion.ts';
import { compareLimbs, overlapOf } from '../../../src/timing/moments/compareLimbs.ts';
import { MINIMUM_JERK_EASE, minimumJerkRise } from '../../../src/timing/moments/ease.ts';
import { findMoments } from '../../../src/timing/moments/findMoments.ts';
import { headAndShoulders } from '../../../src/timing/moments/headAndShoulders.ts';
import { lagBetween } from '../../../src/timing/moments/lag.ts';
import { LIMBS, type MomentsOf } from '../../../src/timing/moments/moments.ts';
import { momentsOnSteps, stepAt } from '../../../src/timing/moments/momentsOnSteps.ts';
import { minimumJerkSpeed } from '../../../src/numeric/minimumJerk.ts';
import { fromAxisAngle } from '../../../src/numeric/quaternion.ts';
import { JOINT, JOINT_COUNT } from '../../../src/motion/joints.ts';

const STEP_S = 1 / 12;
const MOVES: readonly TrueMove[] = [
  { startS: 0.5, endS: 1.1, byDeg: 60 }, { startS: 1.5, endS: 2.5, byDeg: 30 }, { startS: 3, endS: 3.3, byDeg: -20 }, { startS: 3.3, endS: 4.2, byDeg: 50 },
];
const settings = { lengthS: 5.5, framesPerS: 30 };
/** Tremble of single frames: none, half of what footage has, what footage has (0.49°, docs/smoothing.md). */
const NOISES = [0, 0.25, 0.5];
const of = <T extends { readonly of: MomentsOf }>(all: readonly T[], limb: MomentsOf): T[] => all.filter((one) => one.of === limb);

describe('moves and pauses', () => {
  it.each(NOISES.flatMap((noiseDeg) => [1, 2, 3, 4].map((seed) => ({ noiseDeg, seed }))))('tremble $noiseDeg°, seed $seed: starts and ends within a step, the turn at 3.3 s parts two moves', ({ noiseDeg, seed }) => {
    const { moves, pauses } = findMoments(syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { ...settings, noiseDeg, seed }), 1);
    const found = of(moves, 'rightArm');
    expect(found.length).toBe(MOVES.length);
    found.forEach(({ startS, peakS, endS, sizeDeg }, k) => {
      const wanted = MOVES[k]!;
      expect(Math.abs(startS - wanted.startS)).toBeLessThan(STEP_S);
      expect(Math.abs(endS - wanted.endS)).toBeLessThan(STEP_S);
      expect(Math.abs(peakS - (wanted.startS + wanted.endS) / 2)).toBeLessThan(1.2 * STEP_S);
      expect(Math.abs(sizeDeg - Math.abs(wanted.byDeg))).toBeLessThan(4);
    });
    expect(of(pauses, 'rightArm').length).toBe(4);
    for (const limb of ['leftArm', 'leftLeg', 'hips'] as const) {
      expect(of(moves, limb)).toEqual([]);
      expect(of(pauses, limb).map(({ fromS, toS }) => [fromS, toS])).toEqual([[0, 5.5]]);
    }
    expect(of(pauses, 'body').length).toBe(4);
  });

  it.each([1, 2, 3, 4, 5, 6])('seed %s: at the tremble of footage a slow move of 25° in a second and a half begins and ends within a step; at twice that it is still found', (seed) => {
    const slow: TrueMove = { startS: 1, endS: 2.5, byDeg: -25 };
    const quick: TrueMove = { startS: 3.2, endS: 3.8, byDeg: 60 };
    const found = (noiseDeg: number) => of(findMoments(syntheticMotion([{ joint: 'rightElbow', moves: [slow, quick] }], { ...settings, noiseDeg, seed }), 1).moves, 'rightArm');
    const [move] = found(0.5);
    expect(Math.abs(move!.startS - slow.startS)).toBeLessThan(STEP_S);
    expect(Math.abs(move!.endS - slow.endS)).toBeLessThan(STEP_S);
    expect(found(1)).toHaveLength(2);
  });

  it.each(NOISES.flatMap((noiseDeg) => [5, 6, 7].map((seed) => ({ noiseDeg, seed }))))('tremble $noiseDeg°, seed $seed: a swing that never stops has no pause', ({ noiseDeg, seed }) => {
    const swings = Array.from({ length: 9 }, (_, k): TrueMove => ({ startS: k * 0.6, endS: (k + 1) * 0.6, byDeg: k % 2 === 0 ? 45 : -45 }));
    const { moves, pauses } = findMoments(syntheticMotion([{ joint: 'leftElbow', moves: swings }], { ...settings, lengthS: 5.4, noiseDeg, seed }), 1);
    expect(of(pauses, 'leftArm').filter(({ fromS, toS }) => fromS > 0.1 && toS < 5.3)).toEqual([]);
    expect(of(moves, 'leftArm').length).toBe(9);
  });

  it('a limb that walks all the time is not taken for noise: quick swings of thigh, knee and ankle have no pause', () => {
    const swings = (byDeg: number, fromS: number): TrueMove[] => Array.from({ length: 14 }, (_, k) => ({ startS: fromS + k * 0.3, endS: fromS + (k + 1) * 0.3, byDeg: k % 2 === 0 ? byDeg : -byDeg }));
    const walk = syntheticMotion([{ joint: 'leftHip', moves: swings(40, 0) }, { joint: 'leftKnee', moves: swings(60, -0.1) }, { joint: 'leftAnkle', moves: swings(30, -0.2) }], { ...settings, lengthS: 4, noiseDeg: 0.5, seed: 2 });
    const { moves, pauses } = findMoments(walk, 1);
    expect(of(pauses, 'leftLeg')).toEqual([]);
    expect(of(moves, 'leftLeg').length).toBeGreaterThan(0);
  });

  it('are the same in slow motion, in the performer’s time', () => {
    const once = findMoments(syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { ...settings, noiseDeg: 0, seed: 1 }), 1);
    const motion = syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { ...settings, noiseDeg: 0, seed: 1 });
    const slow = findMoments({ ...motion, timesS: motion.timesS.map((t) => t * 8) }, 8);
    of(slow.moves, 'rightArm').forEach(({ startS, peakDegPerS }, k) => {
      expect(startS / 8).toBeCloseTo(of(once.moves, 'rightArm')[k]!.startS, 9);
      expect(peakDegPerS).toBeCloseTo(of(once.moves, 'rightArm')[k]!.peakDegPerS, 6);
    });
  });

  it('a minimum-jerk move has the ease of the yardstick; one that starts at once has less', () => {
    // 16τ²(1-τ)² at the rise is the part it was asked for
    for (const part of [0.04, 0.25, 0.9]) expect(minimumJerkSpeed(minimumJerkRise(part)) / 1.875).toBeCloseTo(part, 12);
    const [move] = of(findMoments(syntheticMotion([{ joint: 'rightElbow', moves: [MOVES[1]!] }], { ...settings, noiseDeg: 0, seed: 1 }), 1).moves, 'rightArm');
    expect(Math.abs(move!.easeIn - MINIMUM_JERK_EASE)).toBeLessThan(0.02);
    expect(Math.abs(move!.easeOut - MINIMUM_JERK_EASE)).toBeLessThan(0.02);
  });

  it('the body drifts in a pause as far as the limb that drifts most', () => {
    // 1.2° in 1.2 s is too slow and too small for a move
    const drift: TrueMove = { startS: 1.5, endS: 2.7, byDeg: 1.2 };
    const { pauses } = findMoments(syntheticMotion([{ joint: 'rightElbow', moves: [drift] }], { ...settings, noiseDeg: 0, seed: 1 }), 1);
    expect(of(pauses, 'body')).toHaveLength(1);
    expect(of(pauses, 'body')[0]!.driftDeg).toBeCloseTo(1.2, 2);
  });

  it('the body pauses while a limb only stirs, and not while one moves', () => {
    const reach: TrueMove = { startS: 1, endS: 2, byDeg: 90 };
    const body = (byDeg: number) => of(findMoments(syntheticMotion([{ joint: 'rightElbow', moves: [reach] }, { joint: 'leftKnee', moves: [{ startS: 3, endS: 3.5, byDeg }] }], { ...settings, noiseDeg: 0, seed: 1 }), 1).pauses, 'body');
    expect(body(8)).toHaveLength(2);
    expect(body(8)[1]!.toS).toBeCloseTo(5.5, 6);
    expect(body(30)).toHaveLength(3);
  });

  it('a joint that is missing for a while makes neither moves nor pauses there', () => {
    const motion = syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { ...settings, noiseDeg: 0, seed: 1 });
    const state = motion.state.slice();
    for (let t = 40; t < 60; t++) state[t * JOINT_COUNT + JOINT.rightElbow] = 2;
    const { moves, pauses } = findMoments({ ...motion, state }, 1);
    for (const { startS, endS } of of(moves, 'rightArm')) expect(endS <= 39.01 / 30 || startS >= 59.99 / 30).toBe(true);
    for (const { fromS, toS } of of(pauses, 'rightArm')) expect(toS <= 39.01 / 30 || fromS >= 59.99 / 30).toBe(true);
  });
});

describe('moments on steps', () => {
  const moments = { moves: [{ of: 'head' as const, startS: 1, peakS: 1.5, endS: 2, sizeDeg: 9, peakDegPerS: 20, easeIn: 0.4, easeOut: 0.4 }], pauses: [{ of: 'head' as const, fromS: 2, toS: 3, driftDeg: 1 }] };

  it('stand where their moments do', () => {
    const { moves, pauses } = momentsOnSteps(moments, Float64Array.from({ length: 41 }, (_, s) => s * 0.1 + 0.05));
    expect(moves[0]!.startStep).toBeCloseTo(9.5, 9);
    expect(moves[0]!.endStep).toBeCloseTo(19.5, 9);
    expect([pauses[0]!.fromStep, pauses[0]!.toStep]).toEqual([20, 29]);
  });

  it('a moment that the timing holds is a pause of all, joined to the performer’s own', () => {
    const held = Float64Array.from([...Array.from({ length: 21 }, (_, s) => s * 0.1), 2, 2, 2, 2.1, 2.2, 2.3]);
    const { pauses, moves } = momentsOnSteps(moments, held);
    expect(of(pauses, 'head').map(({ fromStep, toStep }) => [fromStep, toStep])).toEqual([[20, 26]]);
    for (const limb of LIMBS.filter((l) => l !== 'head')) expect(of(pauses, limb).map(({ fromStep, toStep }) => [fromStep, toStep])).toEqual([[20, 23]]);
    expect(moves[0]!.endStep).toBe(20);
    expect(stepAt(held, 2, 'first')).toBe(20);
    expect(stepAt(held, 2, 'last')).toBe(23);
  });
});

describe('leads', () => {
  const steps = 60;
  const speed = (startS: number, noise: () => number): Float64Array =>
    Float64Array.from({ length: steps }, (_, s) => (s === 0 ? 0 : Math.abs(
      trueAngleDeg([{ startS, endS: startS + 0.9, byDeg: 50 }, { startS: startS + 1.8, endS: startS + 2.5, byDeg: -35 }], s * STEP_S)
      - trueAngleDeg([{ startS, endS: startS + 0.9, byDeg: 50 }, { startS: startS + 1.8, endS: startS + 2.5, byDeg: -35 }], (s - 1) * STEP_S)) + noise()));

  it.each([0, 1, 2.5, 4, -3])('a lag of %s steps is found within half a step, with noise of half a degree a step', (lag) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const random = uniform(seed);
      const noise = (): number => (random() - 0.5) * 1;
      const found = lagBetween(speed(0.8, noise), speed(0.8 + lag * STEP_S, noise), 12);
      expect(Math.abs(found!.steps - lag)).toBeLessThan(0.5);
      expect(found!.confidence).toBeGreaterThan(0.25);
    }
  });

  it('a swing that fits at many lags is not sure, and what stands still has none', () => {
    const swing = (by: number): Float64Array => Float64Array.from({ length: 60 }, (_, s) => Math.abs(Math.sin((s - by) * 0.9)));
    expect(lagBetween(swing(0), swing(1), 12)!.confidence).toBeLessThan(0.25);
    expect(lagBetween(new Float64Array(60), swing(0), 12)).toBeNull();
  });

  it('the same ease shifted by three frames has a lag of three; moves 0–12 and 3–15 share 0.6 and settle 3 apart', () => {
    // definitions and figures of the project's own reference values for lead, follow and overlap
    expect(overlapOf({ startStep: 0, endStep: 12 }, { startStep: 3, endStep: 15 })).toEqual({ share: 0.6, startSpread: 3, settleSpread: 3 });
    const ease = (from: number): Float64Array => Float64Array.from({ length: 30 }, (_, s) => minimumJerkSpeed((s - from) / 12));
    expect(Math.abs(lagBetween(ease(4), ease(7), 10)!.steps - 3)).toBeLessThan(0.15);
  });

  it('in a span: who moves most, who leads by likeness and by starts, left over right', () => {
    const width = LIMBS.length;
    const turnDeg = new Float64Array(steps * width);
    const [left, right] = [speed(0.8, () => 0), speed(0.8 + 3 * STEP_S, () => 0)];
    for (let s = 0; s < steps; s++) {
      turnDeg[s * width + LIMBS.indexOf('leftArm')] = left[s]!;
      turnDeg[s * width + LIMBS.indexOf('rightArm')] = right[s]! * 2;
    }
    const move = (limb: 'leftArm' | 'rightArm', startStep: number) => ({ of: limb, startS: 0, peakS: 0, endS: 0, sizeDeg: 1, peakDegPerS: 1, easeIn: 0, easeOut: 0, startStep, peakStep: 0, endStep: startStep + 10 });
    const found = compareLimbs({ turnDeg, endMm: turnDeg, heightsPerS: turnDeg }, [move('leftArm', 9.6), move('rightArm', 12.6)], 0, steps - 1);
    expect(found).toMatchObject({ most: 'rightArm', leadsByLag: 'leftArm', leadsByStart: 'leftArm' });
    expect(found.armsLeftOverRight).toBeCloseTo(0.5, 2);
    const own = found.limbs.find(({ limb }) => limb === 'leftArm')!;
    expect(own.lag!.steps).toBeCloseTo(-3, 1);
    expect(own.ratio).toBeCloseTo(0.5, 2);
    expect(turnDeg[own.fastestStep * width + LIMBS.indexOf('leftArm')]).toBe(own.mostDeg);
    expect(found.limbs.find(({ limb }) => limb === 'head')!.lag).toBeNull();
  });
});

describe('head and shoulders', () => {
  const poses = (head: (s: number) => number, chest: (s: number) => number) => {
    const rotations = new Float64Array(40 * JOINT_COUNT * 4);
    for (let i = 0; i < rotations.length; i += 4) rotations[i] = 1;
    for (let s = 0; s < 40; s++) {
      rotations.set(fromAxisAngle([0, 1, 0], (chest(s) * Math.PI) / 180), (s * JOINT_COUNT + JOINT.chest) * 4);
      rotations.set(fromAxisAngle([0, 1, 0], ((head(s) - chest(s)) * Math.PI) / 180), (s * JOINT_COUNT + JOINT.head) * 4);
    }
    return { rotations, timesS: Float64Array.from({ length: 40 }, (_, s) => s * STEP_S) };
  };
  const ease = (from: number) => (s: number): number => 60 * (s <= from ? 0 : s >= from + 12 ? 1 : ((u) => u * u * (3 - 2 * u))((s - from) / 12));

  it('turn together, one after the other, or one alone', () => {
    const same = headAndShoulders(poses(ease(8), ease(8)));
    expect(same.together).toBeCloseTo(1, 9);
    expect(same.lag!.steps).toBeCloseTo(0, 6);
    expect([...same.apart].some((a) => a !== 0)).toBe(false);
    expect(same.headDeg[39]).toBeCloseTo(60, 9);
    const after = headAndShoulders(poses(ease(8), ease(12)));
    expect(Math.abs(after.lag!.steps - 4)).toBeLessThan(0.5);
    expect(after.together).toBeLessThan(0.75);
    const alone = headAndShoulders(poses(ease(8), () => 0));
    expect(alone.together).toBe(0);
    expect([...alone.apart.slice(11, 18)]).toEqual([1, 1, 1, 1, 1, 1, 1]);
  });
});
