/**
 * The minimum-jerk move: how an unhurried hand goes from rest to rest, with the least total change of acceleration
 * (Flash & Hogan 1985, J. Neurosci. 5:1688-1703).
 */

/** Greatest speed over mean speed: 1.875·D/T for a move of length D in time T, reached half-way. */
export const MINIMUM_JERK_PEAK = 1.875;

/** Part of the way done at the part `u` of the time; 0 before, 1 after. */
export function minimumJerk(u: number): number {
  const t = Math.min(1, Math.max(0, u));
  return t * t * t * (10 + t * (6 * t - 15));
}

/** Speed at the part `u` of the time, in lengths of the move by its time (D/T); 0 before and after. */
export function minimumJerkSpeed(u: number): number {
  const t = Math.min(1, Math.max(0, u));
  const v = t * (1 - t);
  return 30 * v * v;
}
