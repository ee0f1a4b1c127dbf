/** Where the grips of marks stand, so that two near each other can both be taken hold of. */

export interface GripPlace {
  /** Middle of the mark's own row, and of its grip, px from the top of the rows. */
  readonly markY: number;
  readonly gripY: number;
  /** No room for a whole grip: a small one without words, until it is chosen. */
  readonly thin: boolean;
  /** How far above and below its own height it may be taken hold of, px: half-way to its neighbours at most. */
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
/** Height of a whole one, and how far from its middle it is taken hold of at most: 44 px in all where there is room. */
const WHOLE_PX = 32;
const WHOLE_REACH_PX = 22;

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
    const at = byHeight.indexOf(place);
    return { ...place, abovePx: reach(place, byHeight[at - 1]), belowPx: reach(place, byHeight[at + 1]) };
  });
}

interface Standing {
  readonly gripY: number;
  readonly thin: boolean;
}

/** How far a grip reaches toward a neighbour, beyond its own half height: whole ones leave small ones their room. */
function reach({ gripY, thin }: Standing, beside: Standing | undefined): number {
  const half = (thin ? THIN_PX : WHOLE_PX) / 2;
  const most = thin ? THIN_REACH_PX : WHOLE_REACH_PX;
  if (beside === undefined) return most - half;
  const apart = Math.abs(beside.gripY - gripY);
  const own = beside.thin === thin ? apart / 2 : thin ? apart - GRIP_PX / 2 : half;
  return Math.max(0, Math.min(most, own) - half);
}
