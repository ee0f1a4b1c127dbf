/** Squats at the few frames a second that some footage has: nothing is smoothed, a mean over 0.2 s holds one frame. */
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { matchMoves } from './matchMoves.ts';
import { percentile } from './percentile.ts';
import { syntheticMotion, type TrueMove } from './syntheticMotion.ts';

const SQUATS: readonly TrueMove[] = [{ startS: 1, endS: 2.6, byDeg: 80 }, { startS: 3.4, endS: 5, byDeg: -80 }, { startS: 5, endS: 6.4, byDeg: 80 }, { startS: 7.2, endS: 8.6, byDeg: -80 }];
const FRAMES_PER_S = 5;

/** A row: tremble, runs in which all four moves of the body were found, starts and ends off in seconds, pauses where there are four. */
export function lowRateRow(noiseDeg: number, seeds: number): string[] {
  const offS: number[] = [];
  let [all, pauses] = [0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const joints = ['leftKnee', 'rightKnee', 'rightHip', 'leftHip'] as const;
    const found = findMoments(syntheticMotion(joints.map((joint) => ({ joint, moves: SQUATS })), { lengthS: 10, framesPerS: FRAMES_PER_S, noiseDeg, seed, cutoffHz: null }), 1);
    const own = found.moves.filter(({ of }) => of === 'body');
    const matched = matchMoves(own, SQUATS);
    if (own.length === SQUATS.length && matched.seen === SQUATS.length) all += 1;
    offS.push(...matched.offS);
    if (found.pauses.filter(({ of }) => of === 'body').length === 4) pauses += 1;
  }
  return [`${noiseDeg}°`, `${all} of ${seeds}`, percentile(offS, 0.5).toFixed(2), percentile(offS, 0.95).toFixed(2), `${pauses} of ${seeds}`];
}
