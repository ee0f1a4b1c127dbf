/** Small slow swings that never stop, in a track that trembles and wanders: how many are found, and how much of them is taken for rest. */
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { percentile } from './percentile.ts';
import { syntheticMotion, type TrueMove } from './syntheticMotion.ts';

const SWINGS = 6;
const SWING_S = 0.7;
const FROM_S = 1;
const TO_S = FROM_S + SWINGS * SWING_S;
const STEP_S = 1 / 12;

/** A row: size, tremble, wandering; swings seen (a move covers half of one), part of their time in which the limb moves, first start and last end off in steps. */
export function swingRow(byDeg: number, noiseDeg: number, wanderDeg: number, seeds: number): string[] {
  const swings = Array.from({ length: SWINGS }, (_, k): TrueMove => ({ startS: FROM_S + k * SWING_S, endS: FROM_S + (k + 1) * SWING_S, byDeg: k % 2 === 0 ? byDeg : -byDeg }));
  let [seen, moving] = [0, 0];
  const off: number[] = [];
  for (let seed = 1; seed <= seeds; seed++) {
    const own = findMoments(syntheticMotion([{ joint: 'head', moves: swings }], { lengthS: TO_S + 1.3, framesPerS: 30, noiseDeg, wanderDeg, seed }), 1).moves.filter(({ of }) => of === 'head');
    moving += own.reduce((sum, { startS, endS }) => sum + Math.max(0, Math.min(endS, TO_S) - Math.max(startS, FROM_S)), 0) / (TO_S - FROM_S) / seeds;
    seen += swings.filter(({ startS, endS }) => own.some((move) => Math.min(move.endS, endS) - Math.max(move.startS, startS) > SWING_S / 2)).length;
    const [first, last] = [own[0], own.at(-1)];
    if (first !== undefined && last !== undefined) off.push(Math.abs(first.startS - FROM_S) / STEP_S, Math.abs(last.endS - TO_S) / STEP_S);
  }
  return [`${byDeg}°`, `${noiseDeg}°`, `${wanderDeg}°`, `${seen} of ${SWINGS * seeds}`, `${Math.round(100 * moving)} %`, off.length === 0 ? '–' : percentile(off, 0.5).toFixed(1)];
}
