/** Where the grips of marks stand, so that two near each other can both be taken hold of. */

export interface GripPlace {
  /** Middle of the mark's own row, and of its grip, px from the top of the rows. */
  readonly markY: number;
  readonly gripY: number;
  /** No room for a whole grip: a small one without words, until it is chosen. */
  readonly thin: boolean;
  /** How far above and below its own height a small one may be taken hold of, px: half-way to its neighbours. */
  readonly abovePx: number;
  readonly belowPx: number;
}

/** A grip with the gap below it, px. */
export const GRIP_PX = 34;
/** A grip stands at most so far from its mark; beyond that it would be taken for another's. Our choice. */
const FARTHEST_PX = 2 * GRIP_PX;

/** Height of a small grip, and how far from its middle it is taken hold of at most. */
export const THIN_PX = 10;
const THIN_REACH_PX = 16;

/**
 * Each grip at its mark, or as much below as the one above it takes; where that would be too far, thin ones at the mark itself.
 *
 * @param markYs rising
 */
export function gripPlaces(markYs: readonly number[]): readonly GripPlace[] {
  let free = -Infinity;
  const places = markYs.map((markY) => {
    const gripY = Math.max(markY, free);
    if (gripY - markY > FARTHEST_PX) return { markY, gripY: markY, thin: true };
    free = gripY + GRIP_PX;
    return { markY, gripY, thin: false };
  });
  const byHeight = [...places].sort((a, b) => a.gripY - b.gripY);
  return places.map((place) => {
    if (!place.thin) return { ...place, abovePx: 0, belowPx: 0 };
    const at = byHeight.indexOf(place);
    return { ...place, abovePx: reach(place.gripY, byHeight[at - 1]), belowPx: reach(place.gripY, byHeight[at + 1]) };
  });
}

/** How far a small grip reaches toward a neighbour, beyond its own half height. */
function reach(gripY: number, beside: { readonly gripY: number; readonly thin: boolean } | undefined): number {
  if (beside === undefined) return THIN_REACH_PX - THIN_PX / 2;
  const apart = Math.abs(beside.gripY - gripY);
  const own = beside.thin ? apart / 2 : apart - GRIP_PX / 2;
  return Math.max(0, Math.min(THIN_REACH_PX, own) - THIN_PX / 2);
}
