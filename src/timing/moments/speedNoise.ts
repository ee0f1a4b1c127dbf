/**
 * What of an angular velocity is noise. Two kinds of it come through the smoother: the white tremble of single frames, whose speed is mostly quick, and a
 * pose that wanders like a random walk, whose speed is as strong at all frequencies up to the cut-off.
 *
 * Two things are measured, and both can only be too large where there are moves: the power of the speed where the joint is quietest, and that of
 * a fourth difference, of which moves leave little. The lesser one counts; the two together tell how much is of which kind.
 */
import { chiSquarePart } from '../../numeric/chiSquare.ts';
import { fourthDifferenceGain, wanderS, trembleS, walkDifferenceGain } from './noiseGain.ts';

/** Axes of one or more joints, three of each. Variances of the angular velocity about each of them, (° a second)² of the performer's time. */
export interface SpeedNoise {
  readonly white: Float64Array;
  readonly walk: Float64Array;
}

/** Spacing of the frames that noise is told from, seconds: noise that the smoother lets pass is quicker, moves are slower. Our choice. */
const SPACING_S = 1 / 15;
/** A quarter of the sizes of normal noise lie below this many sigmas (quantile of the normal distribution). */
const QUARTER_PER_SIGMA = 0.3186;
/** A quarter of all normal noise lies below this, in sigmas. */
const QUARTER_Z = -0.6745;
/** Length of the windows among which the quiet ones are looked for, seconds of the performer. Our choice. */
const QUIET_S = 0.5;
/** A joint whose quietest windows have so many times the power that even a random walk could have there is never quiet. Our choice. */
const NEVER_QUIET = 1.5;

/** A stretch of frames in which a joint is known. */
export interface KnownVelocity {
  /** `[n·3]` any unit. */
  readonly velocity: Float64Array;
  /** Mean spacing of its frames, seconds of the performer's time. */
  readonly frameS: number;
}

/** What is measured of one joint, in the squared unit of its velocity. */
export interface MeasuredNoise {
  /** Of each axis, from fourth differences, were it all white. */
  readonly asWhite: readonly number[];
  /** Of all axes, from the windows in which the joint is quietest; infinite where the take has none. */
  readonly resting: number;
}

export function measureNoise(stretches: readonly KnownVelocity[], cutoffHz: number): MeasuredNoise {
  const differences: readonly [number[], number[], number[]] = [[], [], []];
  const quiet: number[] = [];
  for (const stretch of stretches) {
    addDifferences(differences, stretch, cutoffHz);
    addWindows(quiet, stretch);
  }
  const asWhite = differences.map((sizes) => (lowerQuarter(sizes) / QUARTER_PER_SIGMA) ** 2);
  return { asWhite, resting: quiet.length === 0 ? Infinity : lowerQuarter(quiet) / chiSquarePart(QUARTER_Z, degreesOf(asWhite) * Math.max(1, 2 * cutoffHz * QUIET_S)) };
}

/**
 * Noise of each of a take's joints. How much of it walks is told from all of them together, by the middle one: of a single joint it could be told only where that one rests.
 *
 * @param frameS spacing of the frames, seconds of the performer's time
 */
export function noisesOf(measured: readonly MeasuredNoise[], cutoffHz: number, frameS: number): readonly SpeedNoise[] {
  // a random walk of so much speed leaves less of a fourth difference than white tremble does
  const most = (fourthDifferenceGain(cutoffHz, spacingS(frameS)) / walkDifferenceGain(cutoffHz, spacingS(frameS))) ** 2;
  const times = measured.filter(({ asWhite }) => sum(asWhite) > 0).map(({ asWhite, resting }) => resting / sum(asWhite));
  // a joint that is never quiet says nothing of it
  const rests = times.map((own) => (own > NEVER_QUIET * most ? 1 : Math.min(most, Math.max(1, own)))).sort((a, b) => a - b);
  const middle = frameS > SPACING_S ? most : rests[(rests.length - 1) >> 1] ?? 1;
  return measured.map(({ asWhite, resting }) => {
    const white = sum(asWhite);
    const power = Math.min(resting, middle * white);
    const walk = white > 0 ? Math.min(power, Math.max(0, (power - white) / (1 - 1 / most))) : 0;
    return { white: Float64Array.from(asWhite, (own) => (white > 0 ? ((power - walk) * own) / white : 0)), walk: Float64Array.from(asWhite, (own) => (white > 0 ? (walk * own) / white : 0)) };
  });
}

/** Noises of several joints as of one limb, each of them as much as it counts. */
export function noiseOfAll(noises: readonly SpeedNoise[], weights: readonly number[]): SpeedNoise {
  const of = (kind: keyof SpeedNoise): Float64Array => Float64Array.from(noises.flatMap((noise, j) => [...noise[kind]].map((own) => own * weights[j]! ** 2)));
  return { white: of('white'), walk: of('walk') };
}

/** Behind a filter that leaves so much of either kind. */
export function filtered({ white, walk }: SpeedNoise, whiteGain: number, walkGain: number): SpeedNoise {
  return { white: white.map((own) => own * whiteGain ** 2), walk: walk.map((own) => own * walkGain ** 2) };
}

/** Of all axes together. */
export function powerOf({ white, walk }: SpeedNoise): number {
  return sum(white) + sum(walk);
}

/** Power that noise of all axes together stays below at most frames: all but what lies above `z` sigmas. */
export function powerUpTo(noise: SpeedNoise, z: number): number {
  return powerOf(noise) * chiSquarePart(z, degreesOf(Array.from(noise.white, (own, a) => own + noise.walk[a]!)));
}

/**
 * Root mean square of what noise adds to an angle within a stretch, degrees, along a direction.
 *
 * @param direction `[axes]` of length 1
 * @param lengthS of the stretch, seconds of the performer's time
 */
export function angleNoiseAlong({ white, walk }: SpeedNoise, direction: ArrayLike<number>, cutoffHz: number, lengthS: number): number {
  const along = (kind: Float64Array): number => kind.reduce((all, own, a) => all + own * direction[a]! ** 2, 0);
  return Math.hypot(Math.sqrt(along(white)) * trembleS(cutoffHz), Math.sqrt(along(walk)) * wanderS(cutoffHz, lengthS));
}

function sum(values: ArrayLike<number>): number {
  let all = 0;
  for (let i = 0; i < values.length; i++) all += values[i]!;
  return all;
}

/** How many axes of equal noise these are worth; 1 of none. */
function degreesOf(powers: readonly number[]): number {
  const all = sum(powers);
  return all > 0 ? all ** 2 / powers.reduce((squares, own) => squares + own ** 2, 0) : 1;
}

/** Spacing of the frames of a difference, a whole number of theirs. */
const spacingS = (frameS: number): number => Math.max(1, Math.round(SPACING_S / frameS)) * frameS;

/**
 * Adds, axis by axis, the sizes of what the velocity of a frame leaves a cubic through the frames one and two spacings before and behind
 * by (a fourth difference), as large as the speed of white tremble that leaves so much. The
 * spacing is in whole frames, which are taken as even: on footage of changing rate that only makes the noise larger.
 */
function addDifferences(to: readonly [number[], number[], number[]], { velocity, frameS }: KnownVelocity, cutoffHz: number): void {
  const count = velocity.length / 3;
  if (count < 5) return;
  const by = Math.round(spacingS(frameS) / frameS);
  const gain = fourthDifferenceGain(cutoffHz, by * frameS);
  to.forEach((sizes, c) => {
    const v = (k: number): number => velocity[k * 3 + c]!;
    for (let k = 2 * by; k + 2 * by < count; k++) sizes.push(Math.abs(v(k - 2 * by) - 4 * v(k - by) + 6 * v(k) - 4 * v(k + by) + v(k + 2 * by)) / gain);
  });
}

/** Adds the mean power of all axes in windows that overlap by half. */
function addWindows(to: number[], { velocity, frameS }: KnownVelocity): void {
  const count = velocity.length / 3;
  const width = Math.max(1, Math.round(QUIET_S / frameS));
  for (let from = 0; from + width <= count; from += Math.max(1, width >> 1)) {
    let square = 0;
    for (let i = from * 3; i < (from + width) * 3; i++) square += velocity[i]! ** 2;
    to.push(square / width);
  }
}

/** Value that a quarter of some values lie below; 0 of none. */
function lowerQuarter(values: readonly number[]): number {
  return values.length === 0 ? 0 : Float64Array.from(values).sort()[Math.floor(0.25 * (values.length - 1))]!;
}
