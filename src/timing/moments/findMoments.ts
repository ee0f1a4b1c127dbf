/**
 * Cuts a motion into moves and pauses, limb by limb and for the whole body.
 *
 * A limb begins to move where its speed rises above an upper threshold; the move reaches out on both sides to where it falls below a
 * lower one (hysteresis), and on to where a minimum-jerk move with that speed there would have begun and ended. Both
 * thresholds hang on the take's own quick moves and on the noise that was measured: a noisy track hides no pause, a still one
 * makes none up. A dip that is too short for a pause parts two moves (the turn at the top of a reach), without a pause between.
 */
import type { Motion } from '../../motion/motion.ts';
import { bodyMoments } from './bodyMoments.ts';
import { calmed, limbSpeed, type LimbSpeed } from './limbSpeed.ts';
import { LIMBS, type Limb, type Moments, type Move, type Pause } from './moments.ts';
import { moveOf } from './moveOf.ts';
import { refineEdges } from './refineEdges.ts';
import { activeRuns, join, knownRuns, parts } from './runs.ts';
import { driftOf } from './turned.ts';

/** Upper threshold: part of the limb's quick moves (95 % of its speeds lie below), but no more than a slow move has. Our choices. */
const UPPER_PART = 0.08;
const UPPER_MOST_DEG_PER_S = 12;
/** Speeds that nobody calls a move, ° a second: quiet standing sways with about half of that. Our choice. */
const UPPER_LEAST_DEG_PER_S = 2.5;
/** Of the noise, in sigmas, for the upper threshold. */
const NOISE_SIGMAS = 3.5;
/** Where the noise would raise the threshold, the speed is read from mean velocities over so long, seconds of the performer. Our choice. */
const CALM_S = 0.2;
/** By this part of it such a mean crosses a low threshold too early, and too late behind the move. Our choice. */
const CALM_BLUR_PART = 0.25;
/** Lower threshold as a part of the upper one. */
const LOWER_PART = 0.5;
/** Shortest move and pause, seconds of the performer: two steps on twos at 24. Our choice. */
const LEAST_MOVE_S = 0.12;
export const LEAST_PAUSE_S = 0.17;
/** A move that goes less far is none, degrees; nor one that noise of the measured speed makes by wandering for half a second. Our choices. */
const LEAST_SIZE_DEG = 2;
const NOISE_WANDERS_S = 0.5;
/** A move that the take's first or last frame cuts must be this long, seconds: the smoother's ends tremble. Our choice. */
const LEAST_CUT_MOVE_S = 0.2;

/**
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function findMoments(motion: Motion, captureFactor: number): Moments {
  const moves: Move[] = [];
  const pauses: Pause[] = [];
  const known = new Float64Array(motion.timesS.length);
  for (const limb of LIMBS) {
    const speed = limbSpeed(motion, limb, captureFactor);
    const found = limbMoments(motion, limb, speed, captureFactor);
    moves.push(...found.moves);
    pauses.push(...found.pauses);
    // a limb that can't be seen at all is no reason to know nothing of the body
    if (speed.velocities.length > 0) speed.degPerS.forEach((v, t) => { known[t]! += v; });
  }
  const body = bodyMoments(motion, moves, knownRuns(known), LEAST_PAUSE_S * captureFactor);
  return { moves: [...moves, ...body.moves], pauses: [...pauses, ...body.pauses] };
}

function limbMoments(motion: Motion, limb: Limb, speed: LimbSpeed, captureFactor: number): Moments {
  const { timesS } = motion;
  const calm = NOISE_SIGMAS * speed.noiseDegPerS > threshold(speed.degPerS) ? calmed(speed, motion, captureFactor, CALM_S) : speed;
  const { degPerS, noiseDegPerS } = calm;
  const blurS = calm === speed ? 0 : CALM_BLUR_PART * CALM_S * captureFactor;
  const upper = Math.max(NOISE_SIGMAS * noiseDegPerS, threshold(degPerS));
  const lower = Math.max(LOWER_PART * upper, Math.min(upper, 2 * noiseDegPerS));
  const leastDeg = Math.max(LEAST_SIZE_DEG, NOISE_WANDERS_S * noiseDegPerS);
  const moves: Move[] = [];
  const pauses: Pause[] = [];
  for (const known of knownRuns(degPerS)) {
    const active = activeRuns(degPerS, known, upper, lower).filter(({ from, to }) => (timesS[to]! - timesS[from]!) / captureFactor >= LEAST_MOVE_S / 2);
    const joined = join(active, timesS, LEAST_PAUSE_S * captureFactor);
    const found = joined.flatMap((run) => parts(run, degPerS)).map((run) => moveOf(motion, limb, run, degPerS, lower, blurS))
      .filter((move) => move.sizeDeg >= leastDeg && (move.endS - move.startS) / captureFactor >= (move.startS <= timesS[known.from]! || move.endS >= timesS[known.to]! ? LEAST_CUT_MOVE_S : LEAST_MOVE_S));
    const own = refineEdges(found, timesS, speed, known, captureFactor);
    moves.push(...own);
    // between the moves that were found, and before and after them
    let fromS = timesS[known.from]!;
    for (const { startS, endS } of [...own, { startS: timesS[known.to]!, endS: timesS[known.to]! }]) {
      if ((startS - fromS) / captureFactor >= LEAST_PAUSE_S - 1e-9) pauses.push({ of: limb, fromS, toS: startS, driftDeg: driftOf(motion, limb, fromS, startS) });
      fromS = Math.max(fromS, endS);
    }
  }
  return { moves, pauses };
}

/** Upper threshold as far as noise has no say in it. */
function threshold(degPerS: Float64Array): number {
  return Math.max(UPPER_LEAST_DEG_PER_S, Math.min(UPPER_MOST_DEG_PER_S, UPPER_PART * quick(degPerS)));
}

/** Speed below which 95 % of the known ones lie. */
function quick(degPerS: Float64Array): number {
  const known = degPerS.filter((v) => !Number.isNaN(v)).sort();
  return known.length === 0 ? 0 : known[Math.floor(0.95 * (known.length - 1))]!;
}

