/** How fast the whole body turns at every frame: all of its joints as one limb, the noisy ones with less of a say. */
import type { Motion } from '../../motion/motion.ts';
import type { LimbSpeed } from './limbSpeed.ts';
import { frameSpacingS, noiseCutoffHz, trembleS } from './noiseGain.ts';

/** As of a limb, with the velocities as they were weighed; `weights` of the joints, 0..1. */
export interface BodySpeed extends LimbSpeed {
  readonly weights: readonly number[];
}

/** A joint whose speed is as noisy as this has half the say that it had in the square of the speed, ° a second. Our choice. */
const HALF_SAY_DEG_PER_S = 10;

/**
 * Each joint's velocity counts 1/√(1 + (σ/10° a second)²) of itself, σ its noise: near the best weights 1/σ where noise is large, and plain degrees
 * where there is none. NaN where a joint is missing; a limb that can't be seen at all is no reason to know nothing of the body.
 */
export function bodySpeed(limbs: readonly LimbSpeed[], motion: Motion, captureFactor: number): BodySpeed {
  const seen = limbs.filter(({ joints }) => joints.length > 0);
  const noises = seen.flatMap(({ jointNoiseDegPerS }) => jointNoiseDegPerS);
  const weights = noises.map((noise) => 1 / Math.hypot(1, noise / HALF_SAY_DEG_PER_S));
  const velocities = seen.flatMap((limb) => limb.velocities).map((velocity, j) => velocity.map((v) => v * weights[j]!));
  const jointNoiseDegPerS = noises.map((noise, j) => noise * weights[j]!);
  const noiseDegPerS = Math.hypot(...jointNoiseDegPerS);
  return {
    degPerS: motion.timesS.map((_, t) => (seen.length === 0 || seen.some(({ degPerS }) => Number.isNaN(degPerS[t]!)) ? Number.NaN : speedAt(velocities, t))),
    noiseDegPerS,
    noiseDeg: (noiseDegPerS / Math.sqrt(Math.max(1, 3 * noises.length))) * trembleS(noiseCutoffHz(motion, captureFactor)),
    joints: seen.flatMap(({ joints }) => joints), velocities, jointNoiseDegPerS, weights,
    meanOverS: 2 * frameSpacingS(motion, captureFactor),
  };
}

function speedAt(velocities: readonly Float64Array[], t: number): number {
  let square = 0;
  for (const velocity of velocities) for (let c = 0; c < 3; c++) square += velocity[t * 3 + c]! ** 2;
  return Math.sqrt(square);
}
