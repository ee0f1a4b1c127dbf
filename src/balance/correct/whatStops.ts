/** Why a margin can't be had, in a sentence. */

/** @param deepestMm largest margin that any point of the base has. @param reachedMm best that was found */
export function whatStops(stopped: 'limits' | 'jump' | 'rounding', marginMm: number, deepestMm: number, reachedMm: number): string {
  if (deepestMm < marginMm) return `No point of the base is farther than ${deepestMm.toFixed(1)} mm from its edge.`;
  if (stopped === 'jump') return 'It could not be done without a joint that jumps.';
  if (stopped === 'rounding') return 'The joints’ smallest moves are too coarse for that margin.';
  return `The joints that were chosen come to their limits, or to what they may turn in a step, at ${reachedMm.toFixed(1)} mm.`;
}
