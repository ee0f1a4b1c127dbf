/** How long the performer's legs are, from the landmarks themselves. */
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';
import { readVec3, subtract, length } from '../numeric/vector3.ts';
import { STATE_MISSING } from './motion.ts';

const LEGS = (['left', 'right'] as const).map((side) => ({
  hip: LANDMARK[`${side}Hip`], knee: LANDMARK[`${side}Knee`], ankle: LANDMARK[`${side}Ankle`], heel: LANDMARK[`${side}Heel`], toes: LANDMARK[`${side}FootIndex`],
}));

/**
 * Height of the hips over the floor with straight legs, metres: thigh and shank and what the ankle stands above the lower
 * of heel and toes, each the median over all frames with a pose and both legs. NaN without any.
 *
 * @param positionM `[T·33·3]`
 * @param frameState `[T]` STATE_*
 */
export function legLengthM(positionM: Float64Array, frameState: Uint8Array): number {
  const bones: number[] = [];
  const drops: number[] = [];
  for (let t = 0; t < frameState.length; t++) {
    if (frameState[t] === STATE_MISSING) continue;
    const at = (landmark: number) => readVec3(positionM, t * LANDMARK_COUNT + landmark);
    for (const { hip, knee, ankle, heel, toes } of LEGS) {
      bones.push(length(subtract(at(hip), at(knee))) + length(subtract(at(knee), at(ankle))));
      drops.push(at(ankle)[1] - Math.min(at(heel)[1], at(toes)[1]));
    }
  }
  return median(bones) + Math.max(0, median(drops));
}

function median(values: number[]): number {
  if (values.length === 0) return Number.NaN;
  values.sort((a, b) => a - b);
  return (values[(values.length - 1) >> 1]! + values[values.length >> 1]!) / 2;
}
