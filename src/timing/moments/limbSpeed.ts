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

/** Reach of the running mean that noise is told from, seconds: shorter than any move. Our choice. */
const NEAR_S = 0.12;
/** Makes one sigma of the median of the sizes of normal noise. */
const SIGMA_PER_MEDIAN = 1.4826;

/** Joints that can't be seen stay at rest and count for nothing. */
export function limbSpeed(motion: Motion, limb: Limb, captureFactor: number): LimbSpeed {
  const { timesS, rotations, state, observable } = motion;
  const frames = timesS.length;
  const joints = LIMB_JOINTS[limb].map((name) => JOINT[name]).filter((j) => observable[j] === 1);
  const sum = new Float64Array(frames);
  const missing = new Uint8Array(frames);
  const noise: number[] = [];
  for (const j of joints) {
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
      noise.push(...noiseOf(velocity, timesS, from, captureFactor));
      from = to + 1;
    }
  }
  const by = DEG_PER_RAD * captureFactor;
  return {
    degPerS: sum.map((square, t) => (missing[t] === 1 || joints.length === 0 ? Number.NaN : Math.sqrt(square) * by)),
    noiseDegPerS: joints.length === 0 ? 0 : SIGMA_PER_MEDIAN * median(noise) * by * Math.sqrt(joints.length),
  };
}

/**
 * Sizes of what the velocity leaves its own neighbourhood by, a straight line through the frames around: in moves that is near
 * nothing, so the median tells the noise, however much of the take moves.
 */
function noiseOf(velocity: Float64Array, timesS: Float64Array, from: number, captureFactor: number): number[] {
  const count = velocity.length / 3;
  const out: number[] = [];
  for (let k = 1; k + 1 < count; k++) {
    const here = timesS[from + k]!;
    let low = k;
    let high = k;
    while (low > 0 && here - timesS[from + low - 1]! <= NEAR_S * captureFactor) low--;
    while (high + 1 < count && timesS[from + high + 1]! - here <= NEAR_S * captureFactor) high++;
    if (low === k || high === k) continue;
    let square = 0;
    for (let c = 0; c < 3; c++) {
      const u = (here - timesS[from + low]!) / (timesS[from + high]! - timesS[from + low]!);
      const line = velocity[low * 3 + c]! * (1 - u) + velocity[high * 3 + c]! * u;
      square += (velocity[k * 3 + c]! - line) ** 2;
    }
    // the line's two ends carry noise too: 1 + ½ times the variance of one
    out.push(Math.sqrt(square / 1.5));
  }
  return out;
}

/** NaN-free middle of some values; 0 of none. */
export function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
