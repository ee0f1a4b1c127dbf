/** Proposals of marks against a motion whose moves and turns are known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { syntheticMotion, type TrueMove } from '../../../scripts/pace/syntheticMotion.ts';
import { findMoments } from '../../../src/timing/moments/findMoments.ts';
import { JOINT_NAMES } from '../../../src/motion/joints.ts';
import type { Motion } from '../../../src/motion/motion.ts';
import { jointsOf } from '../../../src/timing/moments/moments.ts';
import { proposeMarks, type ProposalSettings } from '../../../src/timing/moments/proposeMarks.ts';
import { turningPoints } from '../../../src/timing/snap/turningPoints.ts';

const STEP_S = 1 / 12;
/** Up, a pause, down and at once up again: one turn, at 2.6 s; there is another at the top, somewhere in the pause. */
const MOVES: readonly TrueMove[] = [{ startS: 0.6, endS: 1.4, byDeg: 60 }, { startS: 2, endS: 2.6, byDeg: -40 }, { startS: 2.6, endS: 3.4, byDeg: 50 }];
const motion = syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { lengthS: 4.5, framesPerS: 30, noiseDeg: 0.25, seed: 3 });
const moments = findMoments(motion, 1);
const turnsOf = (of: Motion) => JOINT_NAMES.flatMap((joint) => turningPoints(of, joint));
const turns = turnsOf(motion);
const all: ProposalSettings = { of: 'rightArm', kinds: ['extreme', 'start', 'end'], inS: 0, outS: 4.5, leastApartS: STEP_S };

describe('proposals of marks', () => {
  it('starts and ends stand where the moves do, within a step', () => {
    for (const [kind, wanted] of [['start', [0.6, 2, 2.6]], ['end', [1.4, 2.6, 3.4]]] as const) {
      const found = proposeMarks(turns, moments, { ...all, kinds: [kind] });
      expect(found.map((one) => one.kind)).toEqual([kind, kind, kind]);
      found.forEach(({ sourceS }, k) => expect(Math.abs(sourceS - wanted[k]!)).toBeLessThan(STEP_S));
    }
  });

  it('one move that goes over into the next is told from one that comes to rest', () => {
    const joinsOf = (kinds: ProposalSettings['kinds']): boolean[] => proposeMarks(turns, moments, { ...all, kinds }).map(({ joins }) => joins);
    expect(joinsOf(['start'])).toEqual([false, false, true]);
    expect(joinsOf(['end'])).toEqual([false, true, false]);
    // both together: one proposal where the moves touch
    expect(joinsOf(['start', 'end'])).toEqual([false, false, false, true, false]);
  });

  it('extremes are the turn at the top and the one below, with the way between them', () => {
    const found = proposeMarks(turns, moments, { ...all, kinds: ['extreme'] });
    expect(found).toHaveLength(2);
    expect(found[0]!.sourceS).toBeGreaterThan(1.2);
    expect(found[0]!.sourceS).toBeLessThan(2.2);
    expect(Math.abs(found[1]!.sourceS - 2.6)).toBeLessThan(STEP_S);
    expect(Math.abs(found[1]!.weightDeg - 40)).toBeLessThan(4);
    expect(found.map(({ turn }) => turn?.joint)).toEqual(['rightElbow', 'rightElbow']);
    // the way to the lower one is 40°, the way to the top 60°
    expect(proposeMarks(turns, moments, { ...all, kinds: ['extreme'], leastTurnDeg: 50 })).toHaveLength(0);
    expect(proposeMarks(turns, moments, { ...all, kinds: ['extreme'], leastTurnDeg: 30 })).toHaveLength(2);
    // of joints that were not chosen there are none
    expect(proposeMarks(turns.filter(({ joint }) => joint !== 'rightElbow'), moments, { ...all, kinds: ['extreme'] })).toEqual([]);
    expect(jointsOf('rightArm')).toContain('rightElbow');
  });

  it('the body has those of its one moving limb; a limb at rest has none', () => {
    const times = (settings: ProposalSettings): number[] => proposeMarks(turns, moments, settings).map(({ sourceS }) => sourceS);
    expect(times({ ...all, of: 'leftLeg' })).toEqual([]);
    expect(times({ ...all, of: 'body', kinds: ['extreme'] })).toEqual(times({ ...all, kinds: ['extreme'] }));
    expect(times({ ...all, kinds: [] })).toEqual([]);
  });

  it('a move that the take’s first frame cuts has no start there', () => {
    const cut = syntheticMotion([{ joint: 'rightElbow', moves: [{ startS: -0.5, endS: 0.6, byDeg: 60 }] }], { lengthS: 2, framesPerS: 30, noiseDeg: 0, seed: 1 });
    expect(proposeMarks(turnsOf(cut), findMoments(cut, 1), { ...all, kinds: ['start', 'end'] }).map(({ kind }) => kind)).toEqual(['end']);
  });

  it('rise in time, keep their distance and stay inside the part that is used, whatever that is', () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 4.5, noNaN: true }), fc.double({ min: 0, max: 4.5, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (a, b, leastApartS) => {
      const [inS, outS] = [Math.min(a, b), Math.max(a, b)];
      const found = proposeMarks(turns, moments, { ...all, of: 'body', inS, outS, leastApartS });
      found.forEach(({ sourceS }, k) => {
        expect(sourceS > inS && sourceS < outS).toBe(true);
        if (k > 0) expect(sourceS - found[k - 1]!.sourceS).toBeGreaterThanOrEqual(leastApartS);
      });
    }));
  });
});
