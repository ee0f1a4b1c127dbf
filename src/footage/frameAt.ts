/**
 * From a moment to a frame. Frames are looked up in the container's timestamps, never computed from a rate.
 */

/**
 * The frame on display at a moment: the last one that has begun.
 *
 * @param timesS presentation timestamps, seconds, strictly rising, at least one
 * @param tS the moment, seconds
 * @returns index 0..T-1; before the first frame, 0
 */
export function frameAt(timesS: ArrayLike<number>, tS: number): number {
  let low = 0;
  let high = timesS.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((timesS[middle] ?? Infinity) <= tS) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * The frame whose timestamp is nearest to a moment; of two equally near the earlier.
 *
 * @param timesS presentation timestamps, seconds, strictly rising, at least one
 * @param tS the moment, seconds
 * @returns index 0..T-1
 */
export function nearestFrame(timesS: ArrayLike<number>, tS: number): number {
  const before = frameAt(timesS, tS);
  const after = Math.min(before + 1, timesS.length - 1);
  return (timesS[after] ?? 0) - tS < tS - (timesS[before] ?? 0) ? after : before;
}
