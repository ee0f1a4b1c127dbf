/** Extremes on steps: they fall on one, time is bent by half a step at most, and the greatest bend is kept. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { syntheticMotion, type TrueMove } from '../../../scripts/pace/syntheticMotion.ts';
import { JOINT, JOINT_COUNT } from '../../../src/motion/joints.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { sampleMotion } from '../../../src/timing/sampleMotion.ts';
import { extremesOf, turningPoints } from '../../../src/timing/snap/turningPoints.ts';
import { snapExtremes } from '../../../src/timing/snap/snapExtremes.ts';
import { layOutSteps, warpOf } from '../../../src/timing/steps.ts';

const smallest = completeArmature(MARLA).joints.find(({ name }) => name === 'leftElbow')!.smallestDeg;
const anyMoves: fc.Arbitrary<readonly TrueMove[]> = fc.array(fc.record({ wait: fc.double({ min: 0, max: 0.4, noNaN: true }), takes: fc.double({ min: 0.35, max: 1, noNaN: true }), byDeg: fc.integer({ min: 15, max: 70 }) }), { minLength: 2, maxLength: 6 })
  .map((all) => {
    let t = 0.3;
    return all.map(({ wait, takes, byDeg }, k): TrueMove => {
      const startS = t + wait;
      t = startS + takes;
      return { startS, endS: t, byDeg: k % 2 === 0 ? byDeg : -byDeg };
    });
  });

describe('extremes', () => {
  it('are where a curve turns back by enough, its ends left out', () => {
    expect(extremesOf([0, 5, 10, 8, 3, 9, 9.5, 9, 12, 0])).toEqual([2, 4, 8]);
    expect(extremesOf([0, 1, 2, 1, 0])).toEqual([]);
    expect(extremesOf([5, 0, 6])).toEqual([1]);
  });

  it('in any motion fall on steps with their whole angle, for half a step of bent time at most', () => {
    fc.assert(fc.property(anyMoves, fc.constantFrom(1, 2, 3), (moves, on) => {
      const motion = syntheticMotion([{ joint: 'leftElbow', moves }], { lengthS: 9, framesPerS: 30, noiseDeg: 0, seed: 1 });
      const timing = { inS: null, outS: null, captureFactor: 1, rate: 24, on, timeScale: 1 };
      const last = motion.timesS[motion.timesS.length - 1]!;
      const points = turningPoints(motion, 'leftElbow');
      const steps = layOutSteps(timing, 0, last);
      const snapped = snapExtremes(warpOf(timing, 0, last), steps.filmTimeS, points);
      expect(snapped.bent.length + snapped.left.length).toBe(points.length);
      const now = layOutSteps(timing, 0, last, snapped.anchors);
      const poses = sampleMotion(motion, now.sourceTimeS);
      for (const { sourceS, angleDeg, fromFilmS, toFilmS } of snapped.bent) {
        expect(Math.abs(toFilmS - fromFilmS)).toBeLessThanOrEqual(on / 24 / 2 + 1e-9);
        const s = now.filmTimeS.findIndex((t) => Math.abs(t - toFilmS) < 1e-9);
        expect(now.sourceTimeS[s]).toBeCloseTo(sourceS, 9);
        const at = (s * JOINT_COUNT + JOINT.leftElbow) * 4;
        const angle = (2 * Math.atan2(poses.rotations[at + 3]!, poses.rotations[at]!) * 180) / Math.PI;
        expect(Math.abs(angle - angleDeg)).toBeLessThanOrEqual(smallest / 2);
      }
      for (let s = 1; s < now.count; s++) expect(now.sourceTimeS[s]!).toBeGreaterThanOrEqual(now.sourceTimeS[s - 1]!);
    }), { numRuns: 60 });
  });

  it('leave marks alone', () => {
    const motion = syntheticMotion([{ joint: 'leftElbow', moves: [{ startS: 0.5, endS: 1.21, byDeg: 40 }, { startS: 1.21, endS: 2, byDeg: -40 }] }], { lengthS: 3, framesPerS: 30, noiseDeg: 0, seed: 1 });
    const marks = [{ id: 'a', sourceS: 1.2, filmS: 1.3, locked: true, kind: 'placed' as const, name: '' }];
    const timing = { inS: null, outS: null, captureFactor: 1, rate: 24, on: 2, timeScale: 1, marks };
    const snapped = snapExtremes(warpOf(timing, 0, 3), layOutSteps(timing, 0, 3).filmTimeS, turningPoints(motion, 'leftElbow'));
    expect(snapped.bent).toEqual([]);
    expect(snapped.left.length).toBe(1);
  });
});
