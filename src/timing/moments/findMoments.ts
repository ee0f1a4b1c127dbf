/**
 * Cuts a motion into moves and pauses, limb by limb and for the whole body.
 *
 * A limb begins to move where its speed rises above an upper threshold; the move reaches out on both sides to where it falls below a
 * lower one (hysteresis), and on to where a minimum-jerk move with that speed there would have begun and ended. Both
 * thresholds hang on the take's own quick moves and on the noise that was measured: a noisy track hides no pause, a still one
 * makes none up. A dip that is too short for a pause parts two moves (the turn at the top of a reach), without a pause between.
 */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import type { Motion } from '../../motion/motion.ts';
import { angleOf, conjugate, multiply, readQuat } from '../../numeric/quaternion.ts';
import { easeShares, minimumJerkLead } from './ease.ts';
import { limbSpeed, type LimbSpeed } from './limbSpeed.ts';
import { LIMB_JOINTS, LIMBS, type Limb, type Moments, type Move, type Pause } from './moments.ts';

/** Upper threshold: part of the limb's quick moves (95 % of its speeds lie below), but no more than a slow move has. Our choices. */
const UPPER_PART = 0.08;
const UPPER_MOST_DEG_PER_S = 12;
/** Speeds that nobody calls a move, ° a second: quiet standing sways with about half of that. Our choice. */
const UPPER_LEAST_DEG_PER_S = 2.5;
/** Of the noise, in sigmas, for the upper threshold. */
const NOISE_SIGMAS = 3.5;
/** Lower threshold as a part of the upper one. */
const LOWER_PART = 0.5;
/** Shortest move and pause, seconds of the performer: two steps on twos at 24. Our choice. */
const LEAST_MOVE_S = 0.12;
export const LEAST_PAUSE_S = 0.17;
/** A move that goes less far is none, degrees; nor one that noise of the measured speed makes by wandering for half a second. Our choices. */
const LEAST_SIZE_DEG = 2;
const NOISE_WANDERS_S = 0.5;
/** A dip to this part of the lower of the peaks on its two sides parts two moves. Our choice. */
const DIP_PART = 0.35;
/** A move that the take's first or last frame cuts must be this long, seconds: the smoother's ends tremble. Our choice. */
const LEAST_CUT_MOVE_S = 0.2;
const DEG_PER_RAD = 180 / Math.PI;

/** Frames `from`..`to`, both included. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * @param captureFactor how many times slower than the performer the container's clock runs
 */
export function findMoments(motion: Motion, captureFactor: number): Moments {
  const moves: Move[] = [];
  const pauses: Pause[] = [];
  const still = new Int32Array(motion.timesS.length);
  for (const limb of LIMBS) {
    const found = limbMoments(motion, limb, limbSpeed(motion, limb, captureFactor), captureFactor);
    moves.push(...found.moves);
    pauses.push(...found.pauses);
    // the first and last frame of a pause belong to the moves beside it
    for (const { fromS, toS } of found.pauses) motion.timesS.forEach((t, k) => { if (t >= fromS && t <= toS) still[k]! += 1; });
  }
  const body = bodyMoments(motion, moves, still, captureFactor);
  return { moves: [...moves, ...body.moves], pauses: [...pauses, ...body.pauses] };
}

function limbMoments(motion: Motion, limb: Limb, { degPerS, noiseDegPerS }: LimbSpeed, captureFactor: number): Moments {
  const { timesS } = motion;
  const upper = Math.max(UPPER_LEAST_DEG_PER_S, NOISE_SIGMAS * noiseDegPerS, Math.min(UPPER_MOST_DEG_PER_S, UPPER_PART * quick(degPerS)));
  const lower = Math.max(LOWER_PART * upper, Math.min(upper, 2 * noiseDegPerS));
  const leastDeg = Math.max(LEAST_SIZE_DEG, NOISE_WANDERS_S * noiseDegPerS);
  const moves: Move[] = [];
  const pauses: Pause[] = [];
  for (const known of knownRuns(degPerS)) {
    const active = activeRuns(degPerS, known, upper, lower).filter(({ from, to }) => (timesS[to]! - timesS[from]!) / captureFactor >= LEAST_MOVE_S / 2);
    const joined = join(active, timesS, LEAST_PAUSE_S * captureFactor);
    const own = joined.flatMap((run) => parts(run, degPerS)).map((run) => moveOf(motion, limb, run, degPerS, lower))
      .filter((move) => move.sizeDeg >= leastDeg && (move.endS - move.startS) / captureFactor >= (move.startS <= timesS[known.from]! || move.endS >= timesS[known.to]! ? LEAST_CUT_MOVE_S : LEAST_MOVE_S));
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

/** Speed below which 95 % of the known ones lie. */
function quick(degPerS: Float64Array): number {
  const known = degPerS.filter((v) => !Number.isNaN(v)).sort();
  return known.length === 0 ? 0 : known[Math.floor(0.95 * (known.length - 1))]!;
}

function knownRuns(degPerS: Float64Array): Run[] {
  const out: Run[] = [];
  for (let t = 0; t < degPerS.length; t++) {
    if (Number.isNaN(degPerS[t]!)) continue;
    const last = out.at(-1);
    if (last !== undefined && last.to === t - 1) out[out.length - 1] = { from: last.from, to: t };
    else out.push({ from: t, to: t });
  }
  return out;
}

function activeRuns(degPerS: Float64Array, { from, to }: Run, upper: number, lower: number): Run[] {
  const out: Run[] = [];
  for (let t = from; t <= to; t++) {
    if (!(degPerS[t]! > upper)) continue;
    let first = t;
    while (first > from && degPerS[first - 1]! > lower) first--;
    let last = t;
    while (last < to && degPerS[last + 1]! > lower) last++;
    out.push({ from: first, to: last });
    t = last;
  }
  return out;
}

/** Runs with less than a pause between them become one. */
function join(runs: readonly Run[], timesS: Float64Array, pauseS: number): Run[] {
  const out: Run[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last !== undefined && timesS[run.from]! - timesS[last.to]! < pauseS) out[out.length - 1] = { from: last.from, to: run.to };
    else out.push(run);
  }
  return out;
}

/** A run parted at its deep dips. */
function parts({ from, to }: Run, degPerS: Float64Array): Run[] {
  let deepest = -1;
  let depth = DIP_PART;
  const before = runningMost(degPerS, from, to, 1);
  const after = runningMost(degPerS, to, from, -1);
  for (let t = from + 1; t < to; t++) {
    const beside = Math.min(before[t - from]!, after[t - from]!);
    const part = degPerS[t]! / beside;
    if (part < depth) {
      depth = part;
      deepest = t;
    }
  }
  if (deepest < 0) return [{ from, to }];
  return [...parts({ from, to: deepest }, degPerS), ...parts({ from: deepest, to }, degPerS)];
}

/** `[…]` largest value from the start of a sweep up to each frame. */
function runningMost(values: Float64Array, from: number, to: number, by: 1 | -1): Float64Array {
  const low = Math.min(from, to);
  const out = new Float64Array(Math.abs(to - from) + 1);
  let most = 0;
  for (let t = from; by > 0 ? t <= to : t >= to; t += by) {
    most = Math.max(most, values[t]!);
    out[t - low] = most;
  }
  return out;
}

function moveOf(motion: Motion, limb: Limb, { from, to }: Run, degPerS: Float64Array, lower: number): Move {
  const { timesS } = motion;
  let peak = from;
  for (let t = from; t <= to; t++) if (degPerS[t]! > degPerS[peak]!) peak = t;
  const top = degPerS[peak]!;
  const startS = reachOut(timesS, degPerS, from, to, -1, lower, top);
  const endS = reachOut(timesS, degPerS, from, to, 1, lower, top);
  const { easeIn, easeOut } = easeShares(timesS, degPerS, from, to, startS, endS, top);
  return { of: limb, startS, peakS: peakTime(timesS, degPerS, peak), endS, sizeDeg: sizeOf(motion, limb, from, to), peakDegPerS: top, easeIn, easeOut };
}

/**
 * Where a move begins or ends: where the speed crosses the lower threshold, between frames, and on by what a minimum-jerk
 * move of this length still lacks there. At a dip between two moves the dip itself.
 */
function reachOut(timesS: Float64Array, degPerS: Float64Array, from: number, to: number, side: 1 | -1, lower: number, top: number): number {
  const edge = side < 0 ? from : to;
  const beyond = edge + side;
  const outside = degPerS[beyond];
  // nothing lies beyond, or it is another move's
  if (outside === undefined || Number.isNaN(outside) || outside > lower || degPerS[edge]! <= lower) return timesS[edge]!;
  const u = (degPerS[edge]! - lower) / (degPerS[edge]! - outside);
  const crossing = timesS[edge]! + u * (timesS[beyond]! - timesS[edge]!);
  const lead = minimumJerkLead(lower / top) * (timesS[to]! - timesS[from]!);
  const wanted = crossing + side * lead;
  // not into what moves beside it, nor beyond the take's end
  let t = beyond;
  while (t + side >= 0 && t + side < degPerS.length && degPerS[t + side]! <= lower && (side < 0 ? timesS[t]! > wanted : timesS[t]! < wanted)) t += side;
  return side < 0 ? Math.max(wanted, timesS[t]!) : Math.min(wanted, timesS[t]!);
}

/** Vertex of the parabola through the peak and its neighbours. */
function peakTime(timesS: Float64Array, values: Float64Array, k: number): number {
  const [a, b, c] = [values[k - 1], values[k]!, values[k + 1]];
  if (a === undefined || c === undefined || Number.isNaN(a) || Number.isNaN(c)) return timesS[k]!;
  const bend = a - 2 * b + c;
  return bend < 0 ? timesS[k]! + (0.5 * (a - c) / bend) * ((timesS[k + 1]! - timesS[k - 1]!) / 2) : timesS[k]!;
}

/** Turn from the first to the last frame of the joint that turns farthest, degrees. */
function sizeOf({ rotations, observable }: Motion, limb: Limb, from: number, to: number): number {
  let most = 0;
  for (const name of LIMB_JOINTS[limb]) {
    const j = JOINT[name];
    if (observable[j] !== 1) continue;
    const first = readQuat(rotations, from * JOINT_COUNT + j);
    // the farthest it gets from where it began, so that a there-and-back is no nothing
    for (let t = from + 1; t <= to; t++) most = Math.max(most, angleOf(multiply(conjugate(first), readQuat(rotations, t * JOINT_COUNT + j))));
  }
  return most * DEG_PER_RAD;
}

function driftOf({ timesS, rotations, observable }: Motion, limb: Limb, fromS: number, toS: number): number {
  let most = 0;
  for (const name of LIMB_JOINTS[limb]) {
    const j = JOINT[name];
    if (observable[j] !== 1) continue;
    let first = -1;
    for (let t = 0; t < timesS.length && timesS[t]! <= toS; t++) {
      if (timesS[t]! < fromS) continue;
      if (first < 0) first = t;
      const turned = angleOf(multiply(conjugate(readQuat(rotations, first * JOINT_COUNT + j)), readQuat(rotations, t * JOINT_COUNT + j)));
      if (turned > most) most = turned;
    }
  }
  return most * DEG_PER_RAD;
}

/** The body pauses where all its limbs do; in between it moves. */
function bodyMoments(motion: Motion, moves: readonly Move[], still: Int32Array, captureFactor: number): Moments {
  const { timesS } = motion;
  const pauses: Pause[] = [];
  for (let t = 0; t < timesS.length; t++) {
    if (still[t] !== LIMBS.length) continue;
    let to = t;
    while (to + 1 < timesS.length && still[to + 1] === LIMBS.length) to++;
    const [fromS, toS] = [timesS[t]!, timesS[to]!];
    if ((toS - fromS) / captureFactor >= LEAST_PAUSE_S - 1e-9) pauses.push({ of: 'body', fromS, toS, driftDeg: Math.max(...LIMBS.map((limb) => driftOf(motion, limb, fromS, toS))) });
    t = to;
  }
  const spans: { fromS: number; toS: number; best: Move }[] = [];
  for (const move of [...moves].sort((a, b) => a.startS - b.startS)) {
    const last = spans.at(-1);
    const parted = last !== undefined && pauses.some(({ fromS, toS }) => fromS >= last.toS - 1e-9 && toS <= move.startS + 1e-9);
    if (last === undefined || move.startS > last.toS || parted) spans.push({ fromS: move.startS, toS: move.endS, best: move });
    else {
      last.toS = Math.max(last.toS, move.endS);
      if (move.sizeDeg > last.best.sizeDeg) last.best = move;
    }
  }
  return { moves: spans.map(({ fromS, toS, best }) => ({ ...best, of: 'body' as const, startS: fromS, endS: toS })), pauses };
}
