/**
 * How a move speeds up and slows down, with the minimum-jerk move as yardstick (Flash & Hogan 1985, J Neurosci 5:1688-1703:
 * speed 30τ²(1-τ)², peak 1.875 times the mean, half-way).
 */

/** Speed from which a move has got up to speed, as a part of its peak. Our choice. */
const UP_TO_SPEED = 0.9;

/** Part of its time after which a minimum-jerk move has a part of its peak speed: 16τ²(1-τ)² = part. */
export function minimumJerkRise(part: number): number {
  const root = Math.sqrt(Math.min(1, Math.max(0, part)));
  return (1 - Math.sqrt(1 - root)) / 2;
}

/** Share of its time that a minimum-jerk move takes to get up to speed, and to lose it again: the yardstick of the shares below. */
export const MINIMUM_JERK_EASE = minimumJerkRise(UP_TO_SPEED);

/** What lies before a crossing of a part of the peak speed, in lengths of the stretch between the two crossings. */
export function minimumJerkLead(part: number): number {
  const rise = minimumJerkRise(part);
  // a move that hardly passes the threshold would be stretched without end
  return rise > 0.3 ? 0.3 / 0.4 : rise / (1 - 2 * rise);
}

/** Speed at which a move is half up to speed, as a part of its peak. */
export const HALF_SPEED = 0.5;

/** What lies before a crossing of a part of the peak speed, in lengths of the stretch from there to half of the peak speed. */
export function minimumJerkLeadOfRise(part: number): number {
  const rise = minimumJerkRise(part);
  const left = minimumJerkRise(HALF_SPEED) - rise;
  return left > 0 ? rise / left : Infinity;
}

/**
 * Shares of a move's time spent getting up to nine tenths of its peak speed, and slowing down from there; compare with
 * MINIMUM_JERK_EASE (0.39): less is snappier.
 */
export function easeShares(
  timesS: Float64Array, speed: Float64Array, from: number, to: number, startS: number, endS: number, top: number,
): { readonly easeIn: number; readonly easeOut: number } {
  const wanted = UP_TO_SPEED * top;
  let first = from;
  while (first < to && speed[first]! < wanted) first++;
  let last = to;
  while (last > from && speed[last]! < wanted) last--;
  const between = (k: number, by: 1 | -1): number => {
    const outer = k - by;
    if (outer < from || outer > to || speed[outer]! >= wanted) return timesS[k]!;
    return timesS[outer]! + ((wanted - speed[outer]!) / (speed[k]! - speed[outer]!)) * (timesS[k]! - timesS[outer]!);
  };
  const whole = endS - startS;
  if (!(whole > 0)) return { easeIn: 0, easeOut: 0 };
  const share = (s: number): number => Math.min(1, Math.max(0, s / whole));
  return { easeIn: share(between(first, 1) - startS), easeOut: share(endS - between(last, -1)) };
}
