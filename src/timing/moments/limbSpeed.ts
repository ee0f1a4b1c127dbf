/** How fast a limb turns at every frame, and how much of that is only noise. */
import { angularVelocities } from '../../numeric/angularVelocity.ts';
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import { STATE_MISSING, type Motion } from '../../motion/motion.ts';
import { LIMB_JOINTS, type Limb } from './moments.ts';

const DEG_PER_RAD = 180 / Math.PI;

/**
 * T frames.
 * - `degPerS[T]` root of the summed squares of the joints' angular speeds, of the performer's own time; NaN where one of them is missing.
 * - `noiseDegPerS` what of it is noise, one sigma.
 */
export interface LimbSpeed {
  readonly degPerS: Float64Array;
  readonly noiseDegPerS: number;
}

/** Spacing of the frames that noise is told from, seconds: noise that the smoother lets pass is quicker, moves are slower. Our choice. */
const SPACING_S = 1 / 15;
/** What the fourth difference makes of one sigma of such noise: measured on still limbs that tremble, behind the smoother at 6 Hz. */
const GAIN = 4.2;
/** A quarter of the sizes of normal noise lie below this many sigmas (quantile of the normal distribution). */
const QUARTER_PER_SIGMA = 0.3186;

/** Joints that can't be seen stay at rest and count for nothing. */
export function limbSpeed(motion: Motion, limb: Limb, captureFactor: number): LimbSpeed {
  const { timesS, rotations, state, observable } = motion;
  const frames = timesS.length;
  const joints = LIMB_JOINTS[limb].map((name) => JOINT[name]).filter((j) => observable[j] === 1);
  const sum = new Float64Array(frames);
  const missing = new Uint8Array(frames);
  let variance = 0;
  for (const j of joints) {
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
      for (let t = from; t <= to; t++) {
        const at = (t - from) * 3;
        sum[t]! += velocity[at]! ** 2 + velocity[at + 1]! ** 2 + velocity[at + 2]! ** 2;
      }
      addNoise(noise, velocity, timesS, from, captureFactor);
      from = to + 1;
    }
    for (const sizes of noise) variance += (lowerQuarter(sizes) / QUARTER_PER_SIGMA) ** 2;
  }
  const by = DEG_PER_RAD * captureFactor;
  return {
    degPerS: sum.map((square, t) => (missing[t] === 1 || joints.length === 0 ? Number.NaN : Math.sqrt(square) * by)),
    noiseDegPerS: Math.sqrt(variance) * by,
  };
}

/**
 * Adds, axis by axis, the sizes of what the velocity of a frame leaves a cubic through the frames one and two spacings before and behind
 * by (a fourth difference). Of moves little is left, and the quietest quarter of the take tells the noise even where most of it moves. The
 * spacing is in whole frames, which are taken as even: on footage of changing rate that only makes the noise larger.
 */
function addNoise(to: readonly [number[], number[], number[]], velocity: Float64Array, timesS: Float64Array, from: number, captureFactor: number): void {
  const count = velocity.length / 3;
  if (count < 5) return;
  const frameS = (timesS[from + count - 1]! - timesS[from]!) / captureFactor / (count - 1);
  const by = Math.max(1, Math.round(SPACING_S / frameS));
  to.forEach((sizes, c) => {
    const v = (k: number): number => velocity[k * 3 + c]!;
    for (let k = 2 * by; k + 2 * by < count; k++) sizes.push(Math.abs(v(k - 2 * by) - 4 * v(k - by) + 6 * v(k) - 4 * v(k + by) + v(k + 2 * by)) / GAIN);
  });
}

/** Value that a quarter of some values lie below; 0 of none. */
function lowerQuarter(values: readonly number[]): number {
  return values.length === 0 ? 0 : Float64Array.from(values).sort()[Math.floor(0.25 * (values.length - 1))]!;
}
