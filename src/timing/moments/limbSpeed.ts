/** How fast a limb turns at every frame, and how much of that is only noise. */
import { angularVelocities } from '../../numeric/angularVelocity.ts';
import { JOINT_COUNT } from '../../motion/joints.ts';
import { STATE_MISSING, type Motion } from '../../motion/motion.ts';
import type { Limb } from './moments.ts';
import { fourthDifferenceGain, frameSpacingS, meanGain, noiseCutoffHz, trembleS } from './noiseGain.ts';
import { seenJointsOf } from './turned.ts';

const DEG_PER_RAD = 180 / Math.PI;

/**
 * T frames.
 * - `degPerS[T]` root of the summed squares of the joints' angular speeds, of the performer's own time; NaN where one of them is missing.
 * - `noiseDegPerS` what of it is noise, one sigma, all joints and axes together; `noiseDeg` the tremble of one joint about one axis that makes it, behind the smoother.
 * - `joints` those that can be seen; `velocities` of each of them `[T·3]` its angular velocity, ° a second of the performer's own time, 0 where it is
 *   missing; `jointNoiseDegPerS` of each of them its noise, one sigma, all axes together.
 */
export interface LimbSpeed {
  readonly degPerS: Float64Array;
  readonly noiseDegPerS: number;
  readonly noiseDeg: number;
  readonly joints: readonly number[];
  readonly velocities: readonly Float64Array[];
  readonly jointNoiseDegPerS: readonly number[];
  /** Seconds of the performer's time over which velocities are means: as measured, from the frame before to the frame after. */
  readonly meanOverS: number;
}

/** Spacing of the frames that noise is told from, seconds: noise that the smoother lets pass is quicker, moves are slower. Our choice. */
const SPACING_S = 1 / 15;
/** A quarter of the sizes of normal noise lie below this many sigmas (quantile of the normal distribution). */
const QUARTER_PER_SIGMA = 0.3186;

/** Joints that can't be seen stay at rest and count for nothing. */
export function limbSpeed(motion: Motion, limb: Limb, captureFactor: number): LimbSpeed {
  const { timesS, rotations, state } = motion;
  const frames = timesS.length;
  const joints = seenJointsOf(motion, limb);
  const sum = new Float64Array(frames);
  const missing = new Uint8Array(frames);
  const velocities = joints.map(() => new Float64Array(frames * 3));
  const by = DEG_PER_RAD * captureFactor;
  const cutoffHz = noiseCutoffHz(motion, captureFactor);
  const variances = joints.map((j, k) => {
    const noise: readonly [number[], number[], number[]] = [[], [], []];
    for (let t = 0; t < frames; t++) if (state[t * JOINT_COUNT + j] === STATE_MISSING) missing[t] = 1;
    let from = 0;
    while (from < frames) {
      if (state[from * JOINT_COUNT + j] === STATE_MISSING) {
        from++;
        continue;
      }
      let to = from;
      while (to + 1 < frames && state[(to + 1) * JOINT_COUNT + j] !== STATE_MISSING) to++;
      const velocity = angularVelocities({ timesS, values: rotations, stride: JOINT_COUNT * 4, offset: j * 4, from, to });
      velocities[k]!.set(velocity.map((v) => v * by), from * 3);
      for (let t = from; t <= to; t++) {
        const at = (t - from) * 3;
        sum[t]! += velocity[at]! ** 2 + velocity[at + 1]! ** 2 + velocity[at + 2]! ** 2;
      }
      addNoise(noise, velocity, timesS, from, captureFactor, cutoffHz);
      from = to + 1;
    }
    return noise.reduce((all, sizes) => all + (lowerQuarter(sizes) / QUARTER_PER_SIGMA) ** 2, 0);
  });
  const variance = variances.reduce((all, own) => all + own, 0);
  return {
    degPerS: sum.map((square, t) => (missing[t] === 1 || joints.length === 0 ? Number.NaN : Math.sqrt(square) * by)),
    noiseDegPerS: Math.sqrt(variance) * by,
    noiseDeg: Math.sqrt(variance / Math.max(1, 3 * joints.length)) * by * trembleS(cutoffHz),
    joints, velocities, jointNoiseDegPerS: variances.map((own) => Math.sqrt(own) * by), meanOverS: 2 * frameSpacingS(motion, captureFactor),
  };
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
  const degPerS = speed.degPerS.map((own, t) => {
    if (Number.isNaN(own)) return own;
    let k = 0;
    const inside = (at: number): boolean => at >= 0 && at < timesS.length && Math.abs(timesS[at]! - timesS[t]!) <= half && !Number.isNaN(speed.degPerS[at]!);
    while (inside(t - k - 1) && inside(t + k + 1)) k++;
    let square = 0;
    for (const velocity of speed.velocities) {
      for (let c = 0; c < 3; c++) {
        let sum = 0;
        for (let at = t - k; at <= t + k; at++) sum += velocity[at * 3 + c]!;
        square += (sum / (2 * k + 1)) ** 2;
      }
    }
    return Math.sqrt(square);
  });
  const frameS = frameSpacingS(motion, captureFactor);
  const frames = 2 * Math.floor(half / captureFactor / frameS) + 1;
  const gain = meanGain(noiseCutoffHz(motion, captureFactor), frames, frameS);
  return { ...speed, degPerS, noiseDegPerS: speed.noiseDegPerS * gain, meanOverS: Math.hypot(speed.meanOverS, (frames - 1) * frameS) };
}

/**
 * Adds, axis by axis, the sizes of what the velocity of a frame leaves a cubic through the frames one and two spacings before and behind
 * by (a fourth difference). Of moves little is left, and the quietest quarter of the take tells the noise even where most of it moves. The
 * spacing is in whole frames, which are taken as even: on footage of changing rate that only makes the noise larger.
 */
function addNoise(to: readonly [number[], number[], number[]], velocity: Float64Array, timesS: Float64Array, from: number, captureFactor: number, cutoffHz: number): void {
  const count = velocity.length / 3;
  if (count < 5) return;
  const frameS = (timesS[from + count - 1]! - timesS[from]!) / captureFactor / (count - 1);
  const by = Math.max(1, Math.round(SPACING_S / frameS));
  const gain = fourthDifferenceGain(cutoffHz, by * frameS);
  to.forEach((sizes, c) => {
    const v = (k: number): number => velocity[k * 3 + c]!;
    for (let k = 2 * by; k + 2 * by < count; k++) sizes.push(Math.abs(v(k - 2 * by) - 4 * v(k - by) + 6 * v(k) - 4 * v(k + by) + v(k + 2 * by)) / gain);
  });
}

/** Value that a quarter of some values lie below; 0 of none. */
function lowerQuarter(values: readonly number[]): number {
  return values.length === 0 ? 0 : Float64Array.from(values).sort()[Math.floor(0.25 * (values.length - 1))]!;
}
