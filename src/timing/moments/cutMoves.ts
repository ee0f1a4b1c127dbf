/**
 * Moves of one speed, a limb's or the body's, and the pauses between them.
 *
 * A limb begins to move where its speed rises above an upper threshold; the move reaches out on both sides to where it falls below a
 * lower one (hysteresis), and on to where a minimum-jerk move with that speed there would have begun and ended. Both
 * thresholds hang on the take's own quick moves and on the noise that was measured: a noisy track hides no pause, a still one
 * makes none up. A dip that is too short for a pause parts two moves (the turn at the top of a reach), without a pause between.
 */
import type { Motion } from '../../motion/motion.ts';
import { calmed, lessNoise, noiseDegPerS, type LimbSpeed } from './limbSpeed.ts';
import type { MomentsOf, Move, Pause } from './moments.ts';
import { moveOf } from './moveOf.ts';
import { frameSpacingS, noiseCutoffHz } from './noiseGain.ts';
import { refineEdges } from './refineEdges.ts';
import { activeRuns, join, knownRuns, parts, type Run } from './runs.ts';
import { powerOf, powerUpTo } from './speedNoise.ts';
import { driftOf } from './turned.ts';

/** Upper threshold: part of the limb's quick moves (95 % of its speeds lie below), but no more than a slow move has. Our choices. */
const UPPER_PART = 0.08;
const UPPER_MOST_DEG_PER_S = 12;
/** Speeds that nobody calls a move, ° a second: quiet standing sways with about half of that. Our choice. */
const UPPER_LEAST_DEG_PER_S = 2.5;
/** How far noise strays above what it is on the whole, in sigmas, for the upper threshold, and for the lower one. */
const NOISE_SIGMAS = 3;
const LOWER_NOISE_SIGMAS = 2;
/** Where the noise would raise the threshold, the speed is read from mean velocities over so long, seconds of the performer. Our choice. */
const CALM_S = 0.2;
/** By this part of it such a mean crosses a low threshold too early, and too late behind the move. Our choice. */
const CALM_BLUR_PART = 0.25;
/** Lower threshold as a part of the upper one. */
const LOWER_PART = 0.5;
/** Where noise is, a move begins and ends no lower than at this part of its own peak: slow noise beside it is no part of it. Our choice. */
const EDGE_PART = 0.15;
const EDGE_NOISE_SIGMAS = 2;
/** Nor anywhere lower than at this part of it: so much of a quick move's speed the smoother lets ring before and behind it. Our choice. */
const RINGING_PART = 0.05;
/** Shortest move, and shortest pause, seconds of the performer: two steps on twos at 24. Our choices. */
const LEAST_MOVE_S = 0.12;
const LEAST_PAUSE_S = 0.17;
/** Nor is a pause shorter than so many frames: where they lie far apart, one that stands looks like any turn. Our choice. */
const LEAST_PAUSE_FRAMES = 1.5;
/** A move that goes less far is none, degrees; nor one that noise of the measured speed makes by wandering for half a second. Our choices. */
const LEAST_SIZE_DEG = 2;
const NOISE_WANDERS_S = 0.5;
/** A move that the take's first or last frame cuts must be this long, seconds: the smoother's ends tremble. Our choice. */
const LEAST_CUT_MOVE_S = 0.2;
const NEAR_S = 1e-9;

/**
 * @param speed of the limb or of the body, as measured
 * @param captureFactor how many times slower than the performer the container's clock runs
 * @param counting which stretches in which the speed is above the thresholds count, before short gaps between them are closed; where the rest was is rest
 */
export function cutMoves(motion: Motion, of: MomentsOf, speed: LimbSpeed, captureFactor: number, counting: (runs: readonly Run[]) => readonly Run[] = (runs) => runs): readonly Move[] {
  const { timesS } = motion;
  const calm = powerUpTo(speed.noise, NOISE_SIGMAS) > threshold(speed.degPerS) ** 2 ? calmed(speed, motion, captureFactor, CALM_S) : speed;
  const degPerS = lessNoise(calm);
  const above = (sigmas: number): number => Math.sqrt(Math.max(0, powerUpTo(calm.noise, sigmas) - powerOf(calm.noise)));
  const blurS = CALM_BLUR_PART * calm.meanOverS * captureFactor;
  const upper = Math.max(above(NOISE_SIGMAS), threshold(degPerS));
  const lower = Math.max(LOWER_PART * upper, Math.min(upper, above(LOWER_NOISE_SIGMAS)));
  const pauseS = leastPauseS(motion, captureFactor);
  const noiseDeg = NOISE_WANDERS_S * Math.sqrt(powerOf(calm.noise));
  const known = knownRuns(degPerS);
  const every = known.flatMap((run) => activeRuns(degPerS, run, upper, lower)).filter(({ from, to }) => (timesS[to]! - timesS[from]!) / captureFactor >= LEAST_MOVE_S / 2);
  const active = counting(every);
  return known.flatMap((run) => {
    const own = join(active.filter(({ from, to }) => from >= run.from && to <= run.to), timesS, pauseS)
      .flatMap((one) => {
        const moves = parts(one, degPerS);
        return moves.map((move, k) => {
          const top = topOf(degPerS, move);
          const least = Math.max(lower, RINGING_PART * top, Math.min(EDGE_PART * top, EDGE_NOISE_SIGMAS * noiseDegPerS(speed)));
          return moveOf(motion, of, trimmed(degPerS, move, least, k === 0, k === moves.length - 1), speed, degPerS, least, blurS);
        });
      });
    const leastS = ({ startS, endS }: Move): number => (startS <= timesS[run.from]! || endS >= timesS[run.to]! ? LEAST_CUT_MOVE_S : LEAST_MOVE_S);
    const counted = own
      .filter(({ move, weighedDeg }) => move.sizeDeg >= LEAST_SIZE_DEG && weighedDeg >= noiseDeg && (move.endS - move.startS) / captureFactor >= leastS(move))
      .map(({ move }) => move);
    return met(refineEdges(counted, timesS, speed, run, noiseCutoffHz(motion, captureFactor), captureFactor), pauseS);
  });
}

/** Pauses of a limb or of the body: between its moves, and before and after them, as far as its speed is known. */
export function pausesBetween(motion: Motion, of: MomentsOf, { degPerS }: LimbSpeed, moves: readonly Move[], captureFactor: number): readonly Pause[] {
  const { timesS } = motion;
  const leastS = leastPauseS(motion, captureFactor);
  return knownRuns(degPerS).flatMap((run): readonly Pause[] => {
    const [firstS, lastS] = [timesS[run.from]!, timesS[run.to]!];
    const own = moves.filter(({ startS, endS }) => endS > firstS && startS < lastS);
    const out: Pause[] = [];
    let fromS = firstS;
    for (const { startS, endS } of [...own, { startS: lastS, endS: lastS }]) {
      if (startS - fromS >= leastS - NEAR_S) out.push({ of, fromS, toS: startS, driftDeg: driftOf(motion, of, fromS, startS) });
      fromS = Math.max(fromS, endS);
    }
    return out;
  });
}

/** Shortest pause that is one, container seconds. */
function leastPauseS(motion: Motion, captureFactor: number): number {
  return Math.max(LEAST_PAUSE_S, LEAST_PAUSE_FRAMES * frameSpacingS(motion, captureFactor)) * captureFactor;
}

function topOf(degPerS: Float64Array, { from, to }: Run): number {
  let top = 0;
  for (let t = from; t <= to; t++) top = Math.max(top, degPerS[t]!);
  return top;
}

/** A run without what lies below a speed at its first or last frames, as far as these are asked for. */
function trimmed(degPerS: Float64Array, { from, to }: Run, least: number, first: boolean, last: boolean): Run {
  let [a, b] = [from, to];
  while (first && a < b && degPerS[a]! < least) a++;
  while (last && b > a && degPerS[b]! < least) b--;
  return { from: a, to: b };
}

/** Moves with less than a pause between them, and those that were led on into each other, meet half-way. */
function met(moves: readonly Move[], pauseS: number): Move[] {
  const out: Move[] = [];
  for (const move of moves) {
    const last = out.at(-1);
    if (last === undefined || move.startS - last.endS >= pauseS - NEAR_S) {
      out.push(move);
      continue;
    }
    const meetS = Math.min(move.peakS, Math.max(last.peakS, (last.endS + move.startS) / 2));
    out[out.length - 1] = { ...last, endS: meetS };
    out.push({ ...move, startS: meetS });
  }
  return out;
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
