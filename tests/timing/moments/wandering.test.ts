/** Slow noise of the pose is no move; small moves and slow ones that go on are. Wandering here: noise that forgets itself in 0.3 s (scripts/pace/syntheticMotion.ts). */
import { describe, expect, it } from 'vitest';
import { syntheticMotion, type TrueMove } from '../../../scripts/pace/syntheticMotion.ts';
import { findMoments } from '../../../src/timing/moments/findMoments.ts';
import { LIMBS, type MomentsOf } from '../../../src/timing/moments/moments.ts';

const of = <T extends { readonly of: MomentsOf }>(all: readonly T[], limb: MomentsOf): T[] => all.filter((one) => one.of === limb);
const SEEDS = Array.from({ length: 12 }, (_, k) => k + 1);
const FEW_SEEDS = SEEDS.slice(0, 6);
const settings = { lengthS: 5.5, framesPerS: 30 };
const REACH: readonly TrueMove[] = [{ startS: 1, endS: 2, byDeg: 70 }, { startS: 3.4, endS: 4.3, byDeg: -70 }];

describe('wandering of the pose', () => {
  /** What the whole take wanders by; how many made-up moves a still limb may have on the mean, and how far starts and ends may be off, steps, nine in ten of them. */
  it.each([{ wanderDeg: 0.5, most: 0.05, within: 0.5 }, { wanderDeg: 1, most: 0.05, within: 1 }, { wanderDeg: 2, most: 0.1, within: 1.5 }, { wanderDeg: 3, most: 0.1, within: 2 }])(
    'by $wanderDeg° makes all but no move where nothing moves, and leaves nine in ten starts and ends within $within steps, of the limb and of the body',
    ({ wanderDeg, most, within }) => {
      let madeUp = 0;
      const off: number[] = [];
      for (const seed of FEW_SEEDS) {
        const { moves } = findMoments(syntheticMotion([{ joint: 'rightElbow', moves: REACH }], { ...settings, noiseDeg: 0.5, wanderDeg, seed }), 1);
        madeUp += moves.filter((move) => move.of !== 'body' && move.of !== 'rightArm').length;
        for (const limb of ['rightArm', 'body'] as const) {
          const own = of(moves, limb);
          expect(own).toHaveLength(REACH.length);
          own.forEach(({ startS, endS }, k) => off.push(12 * Math.abs(startS - REACH[k]!.startS), 12 * Math.abs(endS - REACH[k]!.endS)));
        }
      }
      expect(madeUp / FEW_SEEDS.length / (LIMBS.length - 1)).toBeLessThan(most);
      expect(off.filter((steps) => steps < within).length / off.length).toBeGreaterThan(0.9);
    },
  );

  it('by 1° loses no swing of 12° that never stops', () => {
    const swings = Array.from({ length: 6 }, (_, k): TrueMove => ({ startS: 1 + k * 0.7, endS: 1 + (k + 1) * 0.7, byDeg: k % 2 === 0 ? 12 : -12 }));
    for (const seed of SEEDS) {
      const own = of(findMoments(syntheticMotion([{ joint: 'head', moves: swings }], { ...settings, lengthS: 6.5, noiseDeg: 0.5, wanderDeg: 1, seed }), 1).moves, 'head');
      for (const { startS, endS } of swings) expect(own.some((move) => Math.min(move.endS, endS) - Math.max(move.startS, startS) > 0.35)).toBe(true);
    }
  });

  it.each([0, 0.1, 0.25, 0.5])('tremble %s°: a calm limb that moves by 5° once, and nothing else does, moves', (noiseDeg) => {
    for (const seed of SEEDS) {
      const { moves } = findMoments(syntheticMotion([{ joint: 'head', moves: [{ startS: 2, endS: 2.6, byDeg: 5 }] }], { ...settings, noiseDeg, seed }), 1);
      const own = of(moves, 'head');
      expect(own).toHaveLength(1);
      expect(own[0]!.startS).toBeLessThan(2.3);
      expect(own[0]!.endS).toBeGreaterThan(2.3);
    }
  });

  it.each([0, 0.25, 0.5])('tremble %s°: 5° beside a move of 60° by the same limb is a move', (noiseDeg) => {
    for (const seed of SEEDS) {
      const { moves } = findMoments(syntheticMotion([{ joint: 'head', moves: [{ startS: 1, endS: 1.8, byDeg: 60 }, { startS: 3, endS: 3.5, byDeg: 5 }] }], { ...settings, noiseDeg, seed }), 1);
      expect(of(moves, 'head').length).toBe(2);
    }
  });

  it.each([0, 0.25, 0.5].flatMap((noiseDeg) => [8, 12].map((byDeg) => ({ noiseDeg, byDeg }))))('tremble $noiseDeg°: no slow swing of $byDeg° is lost where they never stop', ({ noiseDeg, byDeg }) => {
    const swings = Array.from({ length: 6 }, (_, k): TrueMove => ({ startS: k * 0.9, endS: (k + 1) * 0.9, byDeg: k % 2 === 0 ? byDeg : -byDeg }));
    for (const seed of SEEDS) {
      const { moves, pauses } = findMoments(syntheticMotion([{ joint: 'spine', moves: swings }], { ...settings, lengthS: 5.4, noiseDeg, seed }), 1);
      // a swing lasts 0.9 s; where it turns back it does stand
      for (const { fromS, toS } of of(pauses, 'shoulders')) expect(toS - fromS).toBeLessThan(0.35);
      expect(of(moves, 'shoulders').length).toBe(swings.length);
    }
  });

  it('slow swings of 5° in a calm track have no pause either, also with quick moves of 60° before', () => {
    const swings = Array.from({ length: 6 }, (_, k): TrueMove => ({ startS: 1 + k * 0.7, endS: 1 + (k + 1) * 0.7, byDeg: k % 2 === 0 ? 5 : -5 }));
    for (const before of [[], [{ startS: 0.2, endS: 0.8, byDeg: 60 }]]) {
      const { moves } = findMoments(syntheticMotion([{ joint: 'spine', moves: [...before, ...swings] }], { ...settings, noiseDeg: 0, seed: 1 }), 1);
      expect(of(moves, 'shoulders')).toHaveLength(before.length + swings.length);
    }
  });
});
