/** The whole body as one: its moves and pauses from all joints together, at the rates of footage and far below them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { syntheticMotion, type SyntheticLimb, type TrueMove } from '../../../scripts/pace/syntheticMotion.ts';
import { PROJECT_FOLDER } from '../../../scripts/serve/projectFolder.ts';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { findMoments } from '../../../src/timing/moments/findMoments.ts';
import type { MomentsOf } from '../../../src/timing/moments/moments.ts';

const of = <T extends { readonly of: MomentsOf }>(all: readonly T[], limb: MomentsOf): T[] => all.filter((one) => one.of === limb);
const later = (moves: readonly TrueMove[], byS: number): TrueMove[] => moves.map((move) => ({ ...move, startS: move.startS + byS, endS: move.endS + byS }));
const body = (limbs: readonly SyntheticLimb[], settings: Parameters<typeof syntheticMotion>[1]) => {
  const { moves, pauses } = findMoments(syntheticMotion(limbs, settings), 1);
  return { moves: of(moves, 'body'), pauses: of(pauses, 'body') };
};

describe('the whole body', () => {
  it.each([0, 0.25, 0.5].flatMap((noiseDeg) => [1, 2, 3].map((seed) => ({ noiseDeg, seed }))))('tremble $noiseDeg°, seed $seed: limbs that turn back one after the other part its moves, though one of them always moves', ({ noiseDeg, seed }) => {
    const squats: TrueMove[] = [{ startS: 0.5, endS: 1.6, byDeg: 80 }, { startS: 1.6, endS: 2.7, byDeg: -80 }, { startS: 2.7, endS: 3.8, byDeg: 80 }, { startS: 3.8, endS: 4.9, byDeg: -80 }];
    const { moves, pauses } = body([
      { joint: 'leftKnee', moves: squats }, { joint: 'rightKnee', moves: squats }, { joint: 'leftHip', moves: squats }, { joint: 'rightHip', moves: squats },
      { joint: 'leftShoulder', moves: later(squats, 0.15) }, { joint: 'rightShoulder', moves: later(squats, -0.15) },
    ], { lengthS: 5.6, framesPerS: 30, noiseDeg, seed });
    expect(moves).toHaveLength(4);
    moves.forEach(({ endS }, k) => { if (k < 3) expect(Math.abs(endS - squats[k]!.endS)).toBeLessThan(1 / 12); });
    expect(pauses.filter(({ fromS, toS }) => fromS > 0.4 && toS < 5)).toEqual([]);
  });

  it.each([0, 0.25, 0.5])('tremble %s°: what walks for seconds without a stop begins and ends where it does, however long it is', (noiseDeg) => {
    const swings = (byDeg: number, fromS: number): TrueMove[] => Array.from({ length: 12 }, (_, k) => ({ startS: fromS + k * 0.3, endS: fromS + (k + 1) * 0.3, byDeg: k % 2 === 0 ? byDeg : -byDeg }));
    const { moves } = body(
      [{ joint: 'leftHip', moves: swings(40, 1) }, { joint: 'leftKnee', moves: swings(60, 1.1) }, { joint: 'rightHip', moves: swings(-40, 1) }, { joint: 'rightKnee', moves: swings(60, 1.2) }],
      { lengthS: 6, framesPerS: 30, noiseDeg, seed: 4 },
    );
    expect(Math.abs(moves[0]!.startS - 1)).toBeLessThan(1 / 12);
    expect(Math.abs(moves.at(-1)!.endS - 4.8)).toBeLessThan(1 / 12);
  });

  it('a slow lean that goes far is a move of the body, also beside a quick one', () => {
    const lean: TrueMove = { startS: 2.5, endS: 5, byDeg: 25 };
    const { moves } = body([{ joint: 'rightElbow', moves: [{ startS: 0.8, endS: 1.4, byDeg: 90 }] }, { joint: 'chest', moves: [lean] }], { lengthS: 6, framesPerS: 30, noiseDeg: 0.5, seed: 3 });
    expect(moves).toHaveLength(2);
    expect(Math.abs(moves[1]!.startS - lean.startS)).toBeLessThan(0.3);
    expect(Math.abs(moves[1]!.endS - lean.endS)).toBeLessThan(0.3);
  });

  it.each([0, 0.25, 0.5].flatMap((noiseDeg) => [1, 2, 3, 4, 5].map((seed) => ({ noiseDeg, seed }))))('at five frames a second, tremble $noiseDeg°, seed $seed: starts and ends within a frame, three pauses, none at a turn', ({ noiseDeg, seed }) => {
    const squats: TrueMove[] = [{ startS: 1, endS: 2.6, byDeg: 80 }, { startS: 3.4, endS: 5, byDeg: -80 }, { startS: 5, endS: 6.4, byDeg: 80 }, { startS: 7.2, endS: 8.6, byDeg: -80 }];
    const found = findMoments(syntheticMotion(
      [{ joint: 'leftKnee', moves: squats }, { joint: 'rightKnee', moves: squats }, { joint: 'rightHip', moves: squats }],
      // so far apart, frames are not smoothed
      { lengthS: 10, framesPerS: 5, noiseDeg, seed, cutoffHz: null },
    ), 1);
    for (const limb of ['rightLeg', 'body'] as const) {
      const moves = of(found.moves, limb);
      expect(moves).toHaveLength(4);
      moves.forEach(({ startS, endS }, k) => {
        expect(Math.abs(startS - squats[k]!.startS)).toBeLessThan(0.2);
        expect(Math.abs(endS - squats[k]!.endS)).toBeLessThan(0.2);
      });
      expect(of(found.pauses, limb)).toHaveLength(4);
    }
    expect(of(found.pauses, 'leftArm').map(({ fromS, toS }) => [fromS, toS])).toEqual([[0, 10]]);
  });
});

describe('in the demo', () => {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  const { moves, pauses } = findMoments(trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1)), 1);

  it('the body pauses before the reach, at the shelf and after it, and at no other time', () => {
    const own = of(pauses, 'body');
    expect(own).toHaveLength(3);
    for (const [k, [fromS, toS]] of ([[0.05, 0.5], [2.4, 3], [4.75, 5.1]] as const).entries()) {
      expect(own[k]!.fromS).toBeLessThan(fromS);
      expect(own[k]!.toS).toBeGreaterThan(toS);
    }
    expect(of(moves, 'body')).toHaveLength(2);
  });

  it('hips and left leg, which wander by 6° at the ends of the take, do not lead: the limbs that reach start no later', () => {
    const first = (limb: MomentsOf): number => of(moves, limb)[0]!.startS;
    expect(first('hips')).toBeGreaterThan(0.5);
    expect(first('leftLeg')).toBeGreaterThan(0.5);
    expect(of(moves, 'hips').at(-1)!.endS).toBeLessThan(4.9);
  });
});
