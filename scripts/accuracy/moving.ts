/**
 * Tells frames in which an angle is moving from those in which it rests, by the truth alone.
 */

/** An angle counts as moving where its true rate of change is above this, degrees a second. */
export const MOVING_DEG_PER_S = 10;

/**
 * @param timesS T times, strictly rising, seconds
 * @param trueDeg T true angles, degrees
 * @returns for each frame whether it moves, from the difference between its neighbours (one-sided at the ends)
 */
export function movingFrames(timesS: ArrayLike<number>, trueDeg: ArrayLike<number>): boolean[] {
  const last = timesS.length - 1;
  return Array.from({ length: timesS.length }, (_, i) => {
    const before = Math.max(0, i - 1);
    const after = Math.min(last, i + 1);
    if (after === before) return false;
    const rate = (trueDeg[after]! - trueDeg[before]!) / (timesS[after]! - timesS[before]!);
    return Math.abs(rate) > MOVING_DEG_PER_S;
  });
}
