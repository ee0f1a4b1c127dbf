/** How fast a limb, or the whole body, turns at every frame: all of its joints as one, the noisy ones with less of a say; and how much of that is only noise. */
import { angularVelocities } from '../../numeric/angularVelocity.ts';
import { JOINT_COUNT } from '../../motion/joints.ts';
import { STATE_MISSING, type Motion } from '../../motion/motion.ts';
import { LIMBS } from './moments.ts';
import { frameSpacingS, meanGain, noiseCutoffHz } from './noiseGain.ts';
import { filtered, measureNoise, noiseOfAll, noisesOf, powerOf, type KnownVelocity, type SpeedNoise } from './speedNoise.ts';
import { seenJointsOf } from './turned.ts';

const DEG_PER_RAD = 180 / Math.PI;

/**
 * T frames.
 * - `degPerS[T]` root of the summed squares of the joints' angular speeds, of the performer's own time, as they are weighed; NaN where one of them is missing.
 * - `joints` those that can be seen, and how much each of them counts, 0..1; `velocities` of each of them `[T·3]` its weighed angular velocity, ° a second of the
 *   performer's own time, 0 where it is missing.
 * - `noise` what of them is noise, joint by joint.
 */
export interface LimbSpeed {
  readonly degPerS: Float64Array;
  readonly joints: readonly number[];
  readonly weights: readonly number[];
  readonly velocities: readonly Float64Array[];
  readonly noise: SpeedNoise;
  /** Seconds of the performer's time over which velocities are means: as measured, from the frame before to the frame after. */
  readonly meanOverS: number;
}

/** A joint whose speed is as noisy as this has half the say that it had in the square of the speed, ° a second. Our choice. */
const HALF_SAY_DEG_PER_S = 10;

interface JointSpeed {
  readonly joint: number;
  readonly velocity: Float64Array;
  readonly known: readonly KnownVelocity[];
}

/** Speeds of all limbs, in the order of LIMBS, and of the body. Joints that can't be seen stay at rest and count for nothing. */
export function limbSpeeds(motion: Motion, captureFactor: number): { readonly limbs: readonly LimbSpeed[]; readonly body: LimbSpeed } {
  const cutoffHz = noiseCutoffHz(motion, captureFactor);
  const frameS = frameSpacingS(motion, captureFactor);
  const limbs = LIMBS.map((limb) => seenJointsOf(motion, limb).map((joint): JointSpeed => ({ joint, ...jointVelocity(motion, joint, captureFactor) })));
  const noises = noisesOf(limbs.flat().map(({ known }) => measureNoise(known, cutoffHz)), cutoffHz, frameS);
  const as = (from: number, own: readonly JointSpeed[]): LimbSpeed => speedOf(motion, own, noises.slice(from, from + own.length), 2 * frameS);
  let first = 0;
  return {
    limbs: limbs.map((own) => {
      first += own.length;
      return as(first - own.length, own);
    }),
    body: as(0, limbs.flat()),
  };
}

/**
 * Each joint's velocity counts 1/√(1 + (σ/10° a second)²) of itself, σ its noise: near the best weights 1/σ where noise is large, and plain degrees
 * where there is none.
 */
function speedOf({ timesS, state }: Motion, own: readonly JointSpeed[], noises: readonly SpeedNoise[], meanOverS: number): LimbSpeed {
  const joints = own.map(({ joint }) => joint);
  const weights = noises.map((noise) => 1 / Math.sqrt(1 + powerOf(noise) / HALF_SAY_DEG_PER_S ** 2));
  const velocities = own.map(({ velocity }, j) => velocity.map((v) => v * weights[j]!));
  const isKnown = (t: number): boolean => own.length > 0 && joints.every((j) => state[t * JOINT_COUNT + j] !== STATE_MISSING);
  return { degPerS: timesS.map((_, t) => (isKnown(t) ? speedAt(velocities, t) : Number.NaN)), joints, weights, velocities, noise: noiseOfAll(noises, weights), meanOverS };
}

/** `velocity[T·3]` of a joint, ° a second of the performer's time, 0 where it is missing; and each stretch in which it is not. */
function jointVelocity({ timesS, rotations, state }: Motion, j: number, captureFactor: number): { readonly velocity: Float64Array; readonly known: readonly KnownVelocity[] } {
  const frames = timesS.length;
  const velocity = new Float64Array(frames * 3);
  const known: KnownVelocity[] = [];
  const isMissing = (t: number): boolean => state[t * JOINT_COUNT + j] === STATE_MISSING;
  for (let from = 0; from < frames; from++) {
    if (isMissing(from)) continue;
    let to = from;
    while (to + 1 < frames && !isMissing(to + 1)) to++;
    const own = angularVelocities({ timesS, values: rotations, stride: JOINT_COUNT * 4, offset: j * 4, from, to }).map((v) => v * DEG_PER_RAD * captureFactor);
    velocity.set(own, from * 3);
    if (to > from) known.push({ velocity: own, frameS: (timesS[to]! - timesS[from]!) / captureFactor / (to - from) });
    from = to;
  }
  return { velocity, known };
}

/** Speed of all joints at a frame. */
export function speedAt(velocities: readonly Float64Array[], t: number): number {
  let square = 0;
  for (const velocity of velocities) for (let c = 0; c < 3; c++) square += velocity[t * 3 + c]! ** 2;
  return Math.sqrt(square);
}

/** Noise of a speed, one sigma, all joints and axes together, ° a second. */
export const noiseDegPerS = ({ noise }: Pick<LimbSpeed, 'noise'>): number => Math.sqrt(powerOf(noise));

/** A speed less what noise adds to it on the whole: 0 where there is no more of it than that. */
export function lessNoise({ degPerS, noise }: LimbSpeed): Float64Array {
  const power = powerOf(noise);
  return degPerS.map((own) => (Number.isNaN(own) ? own : Math.sqrt(Math.max(0, own ** 2 - power))));
}

/**
 * The speed from mean velocities over a window: noise, which turns to and fro, takes itself away. Short pauses get shorter by it.
 *
 * The noise is that of a mean of as many frames as the window holds: where frames lie so far apart that it holds one alone, nothing is taken away,
 * and the noise is as large as it was.
 *
 * @param widthS of the window, seconds of the performer's time; at the take's ends and beside gaps it is narrower, as far ahead as back
 */
export function calmed(speed: LimbSpeed, motion: Motion, captureFactor: number, widthS: number): LimbSpeed {
  const { timesS } = motion;
  const half = (widthS / 2) * captureFactor + 1e-9;
  const velocities = speed.velocities.map((own) => new Float64Array(own.length));
  speed.degPerS.forEach((own, t) => {
    if (Number.isNaN(own)) return;
    let k = 0;
    const inside = (at: number): boolean => at >= 0 && at < timesS.length && Math.abs(timesS[at]! - timesS[t]!) <= half && !Number.isNaN(speed.degPerS[at]!);
    while (inside(t - k - 1) && inside(t + k + 1)) k++;
    speed.velocities.forEach((velocity, j) => {
      for (let c = 0; c < 3; c++) {
        let sum = 0;
        for (let at = t - k; at <= t + k; at++) sum += velocity[at * 3 + c]!;
        velocities[j]![t * 3 + c] = sum / (2 * k + 1);
      }
    });
  });
  const frameS = frameSpacingS(motion, captureFactor);
  const frames = 2 * Math.floor(half / captureFactor / frameS) + 1;
  const cutoffHz = noiseCutoffHz(motion, captureFactor);
  return {
    degPerS: speed.degPerS.map((own, t) => (Number.isNaN(own) ? own : speedAt(velocities, t))),
    joints: speed.joints, weights: speed.weights, velocities, noise: filtered(speed.noise, meanGain('white', cutoffHz, frames, frameS), meanGain('walk', cutoffHz, frames, frameS)), meanOverS: Math.hypot(speed.meanOverS, (frames - 1) * frameS),
  };
}
