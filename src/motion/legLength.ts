/** How long the performer's legs are, from the landmarks themselves. */
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';
import { STATE_MISSING } from './motion.ts';

/** Where the x of each landmark lies behind the first number of its frame. */
const LEGS = (['left', 'right'] as const).map((side) => ({
  hip: LANDMARK[`${side}Hip`] * 3, knee: LANDMARK[`${side}Knee`] * 3, ankle: LANDMARK[`${side}Ankle`] * 3,
  heel: LANDMARK[`${side}Heel`] * 3, toes: LANDMARK[`${side}FootIndex`] * 3,
}));

/**
 * Height of the hips over the floor with straight legs, metres: thigh and shank and what the ankle stands above the lower
 * of heel and toes, each the median over all frames with a pose and both legs. NaN without any.
 *
 * @param positionM `[T·33·3]`
 * @param frameState `[T]` STATE_*
 */
export function legLengthM(positionM: Float64Array, frameState: Uint8Array): number {
  const bones = new Float64Array(frameState.length * LEGS.length);
  const drops = new Float64Array(frameState.length * LEGS.length);
  let count = 0;
  for (let t = 0; t < frameState.length; t++) {
    if (frameState[t] === STATE_MISSING) continue;
    const first = t * LANDMARK_COUNT * 3;
    for (const { hip, knee, ankle, heel, toes } of LEGS) {
      bones[count] = distance(positionM, first + hip, first + knee) + distance(positionM, first + knee, first + ankle);
      drops[count] = positionM[first + ankle + 1]! - Math.min(positionM[first + heel + 1]!, positionM[first + toes + 1]!);
      count++;
    }
  }
  return median(bones.subarray(0, count)) + Math.max(0, median(drops.subarray(0, count)));
}

function distance(points: Float64Array, a: number, b: number): number {
  const x = points[a]! - points[b]!;
  const y = points[a + 1]! - points[b + 1]!;
  const z = points[a + 2]! - points[b + 2]!;
  return Math.sqrt(x * x + y * y + z * z);
}

/** Sorts the values. */
function median(values: Float64Array): number {
  if (values.length === 0) return Number.NaN;
  values.sort();
  return (values[(values.length - 1) >> 1]! + values[values.length >> 1]!) / 2;
}
