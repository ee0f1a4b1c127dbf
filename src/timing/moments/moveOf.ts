/** One move out of the frames in which a limb, or the body, is quick: where it begins, is fastest and ends, how far and how softly. */
import type { Motion } from '../../motion/motion.ts';
import { easeShares, HALF_SPEED, minimumJerkLead, minimumJerkLeadOfRise } from './ease.ts';
import type { LimbSpeed } from './limbSpeed.ts';
import type { Move, MomentsOf } from './moments.ts';
import type { Run } from './runs.ts';
import { farthestTurn } from './turned.ts';

/** A move, and how far the joint that gets farthest does so as it is weighed, degrees. */
export interface WeighedMove {
  readonly move: Move;
  readonly weighedDeg: number;
}

/**
 * @param speed of the limb or the body
 * @param degPerS that speed as it was cut
 * @param lower threshold that the speed falls below beside the run, ° a second
 * @param blurS by how much the speed seems to begin earlier and end later than it does, container seconds
 */
export function moveOf(motion: Motion, of: MomentsOf, { from, to }: Run, { joints, weights }: LimbSpeed, degPerS: Float64Array, lower: number, blurS: number): WeighedMove {
  const { timesS } = motion;
  let peak = from;
  for (let t = from; t <= to; t++) if (degPerS[t]! > degPerS[peak]!) peak = t;
  const top = degPerS[peak]!;
  const startS = reachOut(timesS, degPerS, from, to, -1, lower, top, blurS);
  const endS = reachOut(timesS, degPerS, from, to, 1, lower, top, blurS);
  const { easeIn, easeOut } = easeShares(timesS, degPerS, from, to, startS, endS, top);
  const { deg, weighedDeg } = farthestTurn(motion, joints, from, to, weights);
  return { move: { of, startS, peakS: peakTime(timesS, degPerS, peak), endS, sizeDeg: deg, peakDegPerS: top, easeIn, easeOut }, weighedDeg };
}

/**
 * Where a move begins or ends: where the speed crosses the lower threshold, between frames, and on by what a minimum-jerk
 * move of this length still lacks there. At a dip between two moves the dip itself.
 */
function reachOut(timesS: Float64Array, degPerS: Float64Array, from: number, to: number, side: 1 | -1, lower: number, top: number, blurS: number): number {
  const edge = side < 0 ? from : to;
  const beyond = edge + side;
  const outside = degPerS[beyond];
  // nothing lies beyond, or it is another move's
  if (outside === undefined || Number.isNaN(outside) || outside > lower || degPerS[edge]! <= lower) return timesS[edge]!;
  const u = (degPerS[edge]! - lower) / (degPerS[edge]! - outside);
  const crossing = timesS[edge]! + u * (timesS[beyond]! - timesS[edge]!);
  // of several moves in one the length says nothing of how soon the first got up to speed
  const lead = Math.min(minimumJerkLead(lower / top) * (timesS[to]! - timesS[from]!), minimumJerkLeadOfRise(lower / top) * riseS(timesS, degPerS, from, to, side, top, crossing));
  const wanted = crossing + side * (lead - blurS);
  // not into what moves beside it, nor beyond the take's end
  let t = beyond;
  while (t + side >= 0 && t + side < degPerS.length && degPerS[t + side]! <= lower && (side < 0 ? timesS[t]! > wanted : timesS[t]! < wanted)) t += side;
  return side < 0 ? Math.max(wanted, timesS[t]!) : Math.min(wanted, timesS[t]!);
}

/** Time from a crossing at one side of a move to half of its peak speed. */
function riseS(timesS: Float64Array, degPerS: Float64Array, from: number, to: number, side: 1 | -1, top: number, crossing: number): number {
  let t = side < 0 ? from : to;
  while (t - side >= from && t - side <= to && degPerS[t]! < HALF_SPEED * top) t -= side;
  return Math.abs(timesS[t]! - crossing);
}

/** Vertex of the parabola through the peak and its neighbours. */
function peakTime(timesS: Float64Array, values: Float64Array, k: number): number {
  const [a, b, c] = [values[k - 1], values[k]!, values[k + 1]];
  if (a === undefined || c === undefined || Number.isNaN(a) || Number.isNaN(c)) return timesS[k]!;
  const bend = a - 2 * b + c;
  return bend < 0 ? timesS[k]! + (0.5 * (a - c) / bend) * ((timesS[k + 1]! - timesS[k - 1]!) / 2) : timesS[k]!;
}
