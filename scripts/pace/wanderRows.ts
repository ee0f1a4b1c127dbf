/** What slow wandering of the pose does to moves that are known, and what it makes up where nothing moves. */
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { limbSpeeds, noiseDegPerS } from '../../src/timing/moments/limbSpeed.ts';
import { LIMBS } from '../../src/timing/moments/moments.ts';
import { matchMoves } from './matchMoves.ts';
import { percentile } from './percentile.ts';
import { syntheticMotion, type TrueMove } from './syntheticMotion.ts';

const REACH: readonly TrueMove[] = [{ startS: 1, endS: 2, byDeg: 70 }, { startS: 3.4, endS: 4.3, byDeg: -70 }];
const STEP_S = 1 / 12;
const LENGTH_S = 5.5;

/** A row: wandering, noise of the speed of a still limb and of the body, then of the arm and of the body what was found, then what was made up elsewhere. */
export function wanderRow(wanderDeg: number, seeds: number): string[] {
  const of = { rightArm: { seen: 0, madeUp: 0, off: [] as number[] }, body: { seen: 0, madeUp: 0, off: [] as number[] } };
  let [still, limbNoise, bodyNoise] = [0, 0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const motion = syntheticMotion([{ joint: 'rightElbow', moves: REACH }], { lengthS: LENGTH_S, framesPerS: 30, noiseDeg: 0.5, wanderDeg, seed });
    const { limbs, body } = limbSpeeds(motion, 1);
    limbNoise += noiseDegPerS(limbs[LIMBS.indexOf('leftLeg')]!) / seeds;
    bodyNoise += noiseDegPerS(body) / seeds;
    const { moves } = findMoments(motion, 1);
    for (const limb of ['rightArm', 'body'] as const) {
      const { seen, madeUp, offS } = matchMoves(moves.filter((move) => move.of === limb), REACH);
      of[limb].seen += seen;
      of[limb].madeUp += madeUp;
      of[limb].off.push(...offS.map((s) => s / STEP_S));
    }
    still += moves.filter((move) => move.of !== 'rightArm' && move.of !== 'body').length;
  }
  const words = ({ seen, madeUp, off }: { seen: number; madeUp: number; off: number[] }): string[] =>
    [`${seen} of ${seeds * REACH.length}`, String(madeUp), `${percentile(off, 0.5).toFixed(2)}, ${percentile(off, 0.95).toFixed(1)}`];
  return [`${wanderDeg}°`, `${limbNoise.toFixed(1)}, ${bodyNoise.toFixed(1)}`, ...words(of.rightArm), ...words(of.body), (still / seeds / (LIMBS.length - 1)).toFixed(2)];
}
