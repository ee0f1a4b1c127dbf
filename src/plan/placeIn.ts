/** Where a moment stands between rising times. */

/** Between entries `low` and `high` (the same or neighbours), by that share of the way from one to the other, 0..1. */
export interface Place {
  readonly low: number;
  readonly high: number;
  readonly share: number;
}

/**
 * @param timesS rising, equal ones allowed, at least one
 * @param timeS before the first or after the last it stands at that one
 */
export function placeIn(timesS: Float64Array, timeS: number): Place {
  const last = timesS.length - 1;
  let low = 0;
  let high = last;
  if (timeS <= timesS[0]!) return { low: 0, high: 0, share: 0 };
  if (timeS >= timesS[last]!) return { low: last, high: last, share: 0 };
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (timesS[middle]! <= timeS) low = middle;
    else high = middle;
  }
  return { low, high, share: (timeS - timesS[low]!) / (timesS[high]! - timesS[low]!) };
}
