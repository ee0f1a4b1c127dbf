/** From times that a person means to frames of the track. */

/** Index of the frame nearest to a time, or -1 where the time lies outside the take by more than one frame. */
export function frameAt(timesS: Float64Array, timeS: number): number {
  const last = timesS.length - 1;
  if (last < 0) return -1;
  const slack = last > 0 ? (timesS[last]! - timesS[0]!) / last : 0;
  if (timeS < timesS[0]! - slack || timeS > timesS[last]! + slack) return -1;
  let low = 0;
  let high = last;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timesS[middle]! < timeS) low = middle + 1;
    else high = middle;
  }
  return low > 0 && timeS - timesS[low - 1]! < timesS[low]! - timeS ? low - 1 : low;
}

/** A hair for times that have been through a file or a division. */
const HAIR_S = 1e-6;

/** First and last frame (both included) of a span of time, or `null` where no frame lies in it. */
export function framesIn(timesS: Float64Array, fromS: number, toS: number): readonly [number, number] | null {
  let first = 0;
  while (first < timesS.length && timesS[first]! < fromS - HAIR_S) first++;
  let last = timesS.length - 1;
  while (last >= 0 && timesS[last]! > toS + HAIR_S) last--;
  return first <= last ? [first, last] : null;
}
