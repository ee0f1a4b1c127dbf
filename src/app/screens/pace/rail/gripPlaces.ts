/** Where the grips of marks stand, so that two near each other can both be taken hold of. */

export interface GripPlace {
  /** Middle of the mark's own row, and of its grip, px from the top of the rows. */
  readonly markY: number;
  readonly gripY: number;
  /** No room for a whole grip: a small one without words, until it is chosen. */
  readonly thin: boolean;
}

/** A grip with the gap below it, px. */
export const GRIP_PX = 34;
/** A grip stands at most so far from its mark; beyond that it would be taken for another's. Our choice. */
const FARTHEST_PX = 2 * GRIP_PX;

/**
 * Each grip at its mark, or as much below as the one above it takes; where that would be too far, thin ones at the mark itself.
 *
 * @param markYs rising
 */
export function gripPlaces(markYs: readonly number[]): readonly GripPlace[] {
  let free = -Infinity;
  return markYs.map((markY) => {
    const gripY = Math.max(markY, free);
    if (gripY - markY > FARTHEST_PX) return { markY, gripY: markY, thin: true };
    free = gripY + GRIP_PX;
    return { markY, gripY, thin: false };
  });
}
