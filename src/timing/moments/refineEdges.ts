/** Starts and ends of moves that thresholds have found, read anew from all of their frames. */
import { fitMove, type FittedMove } from './fitMove.ts';
import type { LimbSpeed } from './limbSpeed.ts';
import type { Move } from './moments.ts';
import type { Run } from './runs.ts';
import { angleNoiseAlong } from './speedNoise.ts';

/** How much of the rest beside a move is looked at, in lengths of the move. Our choice. */
const REST_PART = 0.5;
/** A fit counts where what it leaves is no more than this many sigmas of the noise, or this part of the way. Our choices. */
const LEFT_SIGMAS = 2;
const LEFT_PART = 0.008;
/** It may lie this far from what the thresholds say, in lengths of the move. Our choice. */
const FAR_PART = 0.4;
const NEAR_S = 1e-6;

/**
 * Moves of one known run, rising in time and not overlapping, with their starts and ends fitted where the fit is a good one; the
 * others stay as they were.
 *
 * @param speed of the limb, as measured
 * @param cutoffHz that its noise went through
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function refineEdges(moves: readonly Move[], timesS: Float64Array, { velocities, noise }: LimbSpeed, known: Run, cutoffHz: number, captureFactor: number): Move[] {
  return moves.map((move, k) => {
    const [before, after] = [moves[k - 1], moves[k + 1]];
    const length = move.endS - move.startS;
    const low = Math.max(timesS[known.from]!, move.startS - REST_PART * length, before === undefined ? -Infinity : (before.endS + move.startS) / 2);
    const high = Math.min(timesS[known.to]!, move.endS + REST_PART * length, after === undefined ? Infinity : (move.endS + after.startS) / 2);
    let from = known.from;
    while (from < known.to && timesS[from]! < low - NEAR_S) from++;
    let to = known.to;
    while (to > from && timesS[to]! > high + NEAR_S) to--;
    if (to - from < 4) return move;
    // cut off by the take or by the next move: there is no rest to read the edge from
    const fixStart = move.startS <= timesS[from]! + NEAR_S;
    const fixEnd = move.endS >= timesS[to]! - NEAR_S;
    if (fixStart && fixEnd) return move;
    const direction = directionOf(velocities, timesS, from, to, move);
    const way = wayAlong(velocities, direction, timesS, from, to, captureFactor);
    const fitted = fitMove(timesS, way, from, to, { startS: move.startS, peakS: Math.min(move.endS, Math.max(move.startS, move.peakS)), endS: move.endS, peak: move.peakDegPerS / captureFactor, fixStart, fixEnd });
    const most = Math.max(LEFT_SIGMAS * angleNoiseAlong(noise, direction, cutoffHz, (timesS[to]! - timesS[from]!) / captureFactor), LEFT_PART * Math.abs(way[to]! - way[from]!));
    return {
      ...move,
      startS: isGood(fitted.startS, move.startS, fitted.leftBefore) ? Math.max(timesS[from]!, fitted.startS) : move.startS,
      endS: isGood(fitted.endS, move.endS, fitted.leftAfter) ? Math.min(timesS[to]!, fitted.endS) : move.endS,
    };
    function isGood(fittedS: number, foundS: number, left: number): boolean {
      return left <= most && Math.abs(fittedS - foundS) <= FAR_PART * length && goesOneWay(fitted);
    }
  });
}

const goesOneWay = ({ peak }: FittedMove): boolean => peak > 0;

/** `[joints·3]` in which the move as a whole goes, all joints and axes as one, of length 1; of no way at all zeros. */
function directionOf(velocities: readonly Float64Array[], timesS: Float64Array, from: number, to: number, { startS, endS }: Move): Float64Array {
  const out = new Float64Array(velocities.length * 3);
  velocities.forEach((velocity, j) => {
    for (let t = from; t <= to; t++) {
      if (timesS[t]! < startS || timesS[t]! > endS) continue;
      for (let c = 0; c < 3; c++) out[j * 3 + c]! += velocity[t * 3 + c]!;
    }
  });
  const size = Math.hypot(...out);
  return size > 0 ? out.map((v) => v / size) : out;
}

/** `[T]` way of a limb in a direction, degrees; from 0 at the window's first frame. */
function wayAlong(velocities: readonly Float64Array[], direction: Float64Array, timesS: Float64Array, from: number, to: number, captureFactor: number): Float64Array {
  const out = new Float64Array(timesS.length);
  let before = 0;
  for (let t = from; t <= to; t++) {
    let speed = 0;
    velocities.forEach((velocity, j) => {
      for (let c = 0; c < 3; c++) speed += velocity[t * 3 + c]! * direction[j * 3 + c]!;
    });
    // the trapezium rule, in the performer's time as the speeds are
    if (t > from) out[t] = out[t - 1]! + ((before + speed) / 2) * ((timesS[t]! - timesS[t - 1]!) / captureFactor);
    before = speed;
  }
  return out;
}
