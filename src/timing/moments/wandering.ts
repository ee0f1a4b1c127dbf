/**
 * Moves of a limb that can't be told from the wandering of the pose: slow noise, some degrees in half a second, which no smoother takes away and which
 * the tremble of single frames does not give away.
 *
 * How far it wanders shows where the limb is stillest: by so much it turns in half a second there. A move is taken for wandering where it
 * is no larger than a few times that, no larger than what the fit itself says that the pose may be off by, and small beside the limb's largest. Each of the
 * three alone would take real moves away: a limb that sways all the time never rests, a calm track may carry a small move within its error, and
 * a large move makes no small one untrue.
 */
import { JOINT_COUNT } from '../../motion/joints.ts';
import type { Motion } from '../../motion/motion.ts';
import { noiseDegPerS, type LimbSpeed } from './limbSpeed.ts';
import type { Move } from './moments.ts';
import { knownRuns, type Run } from './runs.ts';
import { farthestTurn } from './turned.ts';

/** Time in which wandering is looked for, seconds of the performer. Our choice. */
const WINDOW_S = 0.5;
/** Share of such windows that count as still ones. Our choice. */
const STILL_SHARE = 0.25;
/** A move is more than so many times the wandering of a still window. Our choice. */
const TIMES_WANDERING = 3;
/** Wandering goes with tremble: it is believed up to the way that the noise of the speed goes in so long, seconds of the performer. Our choice. */
const TREMBLE_S = 0.5;
/** The difference of two angles that are each one sigma off. */
const ERRORS = Math.SQRT2;
/** A move of this part of the limb's largest is one of its own. Our choice. */
const OWN_PART = 0.5;
const NEAR_S = 1e-6;

/**
 * Moves less those that are wandering; those that others touch on both sides stay, since a limb that goes on moving does not pause there.
 *
 * @param moves of one limb, rising in time
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function withoutWandering(motion: Motion, speed: LimbSpeed, moves: readonly Move[], captureFactor: number): readonly Move[] {
  if (moves.length === 0) return moves;
  const largest = moves.reduce((most, move) => (move.sizeDeg > most.sizeDeg ? move : most));
  const wanderDeg = TIMES_WANDERING * Math.min(wanderingOf(motion, speed, captureFactor), TREMBLE_S * noiseDegPerS(speed));
  const isWandering = (move: Move): boolean => move.sizeDeg < wanderDeg && move.sizeDeg < ERRORS * errorOf(motion, speed, move);
  // nothing that the limb does stands out
  const neverMoves = isWandering(largest);
  return moves.filter((move, k) => {
    if ((!neverMoves && move.sizeDeg >= OWN_PART * largest.sizeDeg) || !isWandering(move)) return true;
    if (neverMoves) return false;
    const [before, after] = [moves[k - 1], moves[k + 1]];
    return before !== undefined && after !== undefined && before.endS >= move.startS - NEAR_S && after.startS <= move.endS + NEAR_S;
  });
}

/** How far the joint that turns most gets in half a second where the limb is stillest, degrees. */
function wanderingOf(motion: Motion, { degPerS, joints }: LimbSpeed, captureFactor: number): number {
  const { timesS } = motion;
  const ways: number[] = [];
  for (const run of knownRuns(degPerS)) {
    let to = run.from;
    // four windows overlap: more would say the same again
    for (let from = run.from; from <= run.to; from = next(timesS, from, (WINDOW_S * captureFactor) / 4)) {
      while (to <= run.to && timesS[to]! - timesS[from]! < WINDOW_S * captureFactor - NEAR_S) to++;
      if (to > run.to) break;
      ways.push(farthestTurn(motion, joints, from, to).deg);
    }
  }
  return ways.length === 0 ? 0 : ways.sort((a, b) => a - b)[Math.floor(STILL_SHARE * (ways.length - 1))]!;
}

function next(timesS: Float64Array, from: number, byS: number): number {
  let t = from + 1;
  while (t < timesS.length && timesS[t]! - timesS[from]! < byS - NEAR_S) t++;
  return t;
}

/** What the fit says that the joint which turns most may be off by, degrees: the middle one of the move's frames. */
function errorOf(motion: Motion, { joints }: LimbSpeed, { startS, endS }: Move): number {
  const { from, to } = framesOf(motion, startS, endS);
  const { joint } = farthestTurn(motion, joints, from, to);
  if (joint < 0) return 0;
  const errors = Array.from({ length: to - from + 1 }, (_, k) => motion.errorDeg[(from + k) * JOINT_COUNT + joint]!).sort((a, b) => a - b);
  return errors[errors.length >> 1]!;
}

function framesOf({ timesS }: Motion, startS: number, endS: number): Run {
  let from = 0;
  while (from + 1 < timesS.length && timesS[from]! < startS - NEAR_S) from++;
  let to = from;
  while (to + 1 < timesS.length && timesS[to + 1]! <= endS + NEAR_S) to++;
  return { from, to };
}
