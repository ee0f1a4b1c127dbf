/**
 * Where a move begins and ends, from all of its frames at once: two halves of minimum-jerk moves, one up to the peak of the speed
 * and one down from it, each as long as it needs, laid through the way that was gone by least squares (Gauss-Newton with
 * Levenberg's damping, 1944). Through the way and not through the speed, because the pose's error is even there. A threshold reads
 * a start off two frames, and noise moves it; this reads it off all of the move's.
 */
import { solveDense } from '../../motion/fit/bandedCholesky.ts';

/** A move as laid through the way: seconds of the container, and the peak of its speed, units of the way a second. */
export interface FittedMove {
  readonly startS: number;
  readonly peakS: number;
  readonly endS: number;
  readonly peak: number;
  /** Root mean square of what is left from the window's start to the peak, and from there to its end, in the unit of the way. */
  readonly leftBefore: number;
  readonly leftAfter: number;
}

export interface MoveStart {
  readonly startS: number;
  readonly peakS: number;
  readonly endS: number;
  readonly peak: number;
  /** A start or end that stays where it is: there another move begins. */
  readonly fixStart: boolean;
  readonly fixEnd: boolean;
}

const ROUNDS = 25;
/** A half is never shorter, in frames. */
const LEAST_HALF_FRAMES = 1.5;
const DONE = 1e-4;

/**
 * @param timesS rising, seconds
 * @param way gone along the move at those times, from anywhere, any unit
 * @param from,to window of frames, both included: the move and some of the rest beside it
 * @param start first guess, from thresholds
 */
export function fitMove(timesS: Float64Array, way: Float64Array, from: number, to: number, start: MoveStart): FittedMove {
  const leastS = LEAST_HALF_FRAMES * ((timesS[to]! - timesS[from]!) / Math.max(1, to - from));
  const fixed = [start.fixStart, false, start.fixEnd, false, false];
  let at = within([start.startS, start.peakS, start.endS, start.peak, way[from]!], fixed, leastS);
  let left = sumOfSquares(timesS, way, from, to, at);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS; round++) {
    const [normal, right] = equations(timesS, way, from, to, at, fixed);
    const step = solveDamped(normal, right, damping);
    const next = step === null ? at : within(at.map((v, i) => v + step[i]!), fixed, leastS);
    const nextLeft = step === null ? Infinity : sumOfSquares(timesS, way, from, to, next);
    if (nextLeft < left) {
      const gained = left - nextLeft;
      at = next;
      left = nextLeft;
      damping = Math.max(1e-9, damping / 5);
      if (gained < DONE * left) break;
    } else {
      damping *= 10;
      if (damping > 1e6) break;
    }
  }
  const [startS, peakS, endS, peak] = at as [number, number, number, number];
  let middle = from;
  while (middle < to && timesS[middle + 1]! <= peakS) middle++;
  return {
    startS, peakS, endS, peak,
    leftBefore: Math.sqrt(sumOfSquares(timesS, way, from, middle, at) / (middle - from + 1)),
    leftAfter: Math.sqrt(sumOfSquares(timesS, way, middle, to, at) / (to - middle + 1)),
  };
}

/** Start before peak before end, with a least length of each half; what is fixed pushes the peak. */
function within(at: readonly number[], fixed: readonly boolean[], leastS: number): number[] {
  let [startS, peakS, endS] = at as [number, number, number];
  if (fixed[0]) peakS = Math.max(peakS, startS + leastS);
  if (fixed[2]) peakS = Math.min(peakS, endS - leastS);
  if (!fixed[0]) startS = Math.min(startS, peakS - leastS);
  if (!fixed[2]) endS = Math.max(endS, peakS + leastS);
  return [startS, peakS, endS, at[3]!, at[4]!];
}

/** Way of half a minimum-jerk move up to the part `u` of the whole one's time, by its peak speed and time: the integral of 16u²(1-u)². */
const wayTo = (u: number): number => u * u * u * (16 / 3 + u * (-8 + u * (16 / 5)));
const HALF_WAY = wayTo(0.5);

/** Way gone at a time with a peak speed of 1, and its derivatives by start, peak time and end. */
function shape(t: number, [startS, peakS, endS]: readonly number[]): readonly [way: number, byStart: number, byPeak: number, byEnd: number] {
  const [rise, fall] = [peakS! - startS!, endS! - peakS!];
  if (t <= startS!) return [0, 0, 0, 0];
  if (t >= endS!) return [2 * HALF_WAY * (rise + fall), -2 * HALF_WAY, 0, 2 * HALF_WAY];
  const rising = t < peakS!;
  const half = rising ? rise : fall;
  const gone = rising ? t - startS! : endS! - t;
  const u = gone / (2 * half);
  const speed = 16 * (u * (1 - u)) ** 2;
  const done = wayTo(u);
  if (rising) return [2 * half * done, -2 * done + (speed * (gone - half)) / half, 2 * done - (speed * gone) / half, 0];
  return [
    2 * (rise * HALF_WAY + half * (HALF_WAY - done)), -2 * HALF_WAY,
    2 * done - (speed * gone) / half, 2 * (HALF_WAY - done) - (speed * (half - gone)) / half,
  ];
}

function sumOfSquares(timesS: Float64Array, way: Float64Array, from: number, to: number, at: readonly number[]): number {
  let sum = 0;
  for (let t = from; t <= to; t++) sum += (way[t]! - at[4]! - at[3]! * shape(timesS[t]!, at)[0]) ** 2;
  return sum;
}

/** Unknowns: start, peak time, end, peak speed, way before the move. */
const COUNT = 5;

/** Normal equations, row by row, and the right side. */
function equations(timesS: Float64Array, way: Float64Array, from: number, to: number, at: readonly number[], fixed: readonly boolean[]): readonly [Float64Array, Float64Array] {
  const normal = new Float64Array(COUNT * COUNT);
  const right = new Float64Array(COUNT);
  for (let t = from; t <= to; t++) {
    const [gone, byStart, byPeak, byEnd] = shape(timesS[t]!, at);
    const row = [fixed[0] ? 0 : at[3]! * byStart, at[3]! * byPeak, fixed[2] ? 0 : at[3]! * byEnd, gone, 1];
    const left = way[t]! - at[4]! - at[3]! * gone;
    for (let i = 0; i < COUNT; i++) {
      right[i]! += row[i]! * left;
      for (let k = 0; k < COUNT; k++) normal[i * COUNT + k]! += row[i]! * row[k]!;
    }
  }
  return [normal, right];
}

/** Step of the damped equations; a parameter that nothing depends on stays. `null` where they can't be solved without more damping. */
function solveDamped(normal: Float64Array, right: Float64Array, damping: number): Float64Array | null {
  const matrix = normal.slice();
  const step = right.slice();
  for (let i = 0; i < COUNT; i++) matrix[i * (COUNT + 1)]! += damping * normal[i * (COUNT + 1)]! + (normal[i * (COUNT + 1)] === 0 ? 1 : 0);
  return solveDense(matrix, step) ? step : null;
}
