/** Where words stand beside a point of a small picture without lying on other words. All in px of the picture, y down. */

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type Anchor = 'start' | 'middle' | 'end';

/** Of the size in which these pictures are labelled (13 px); a trifle more than the letters take, so that boxes that do not meet leave air. */
const CHAR_PX = 7.4;
const ABOVE_PX = 11;
const BELOW_PX = 4;

/** The room that words take. */
export function boxAround({ x, y, anchor, text }: { readonly x: number; readonly y: number; readonly anchor: Anchor; readonly text: string }): Box {
  const wide = text.length * CHAR_PX;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2;
  return { left, right: left + wide, top: y - ABOVE_PX, bottom: y + BELOW_PX };
}

/** A square about a point that words keep off. */
export function fieldOf([x, y]: readonly [number, number], half: number): Box {
  return { left: x - half, right: x + half, top: y - half, bottom: y + half };
}

export function meet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** How far words stand from their point at first, and what is added where no place is free, px. */
const OFF_PX = 8;
const ROUNDS = 5;

/**
 * The nearest place beside a point where words meet none of the boxes and stay in the picture; where there is none, the one that stays in it.
 */
export function freePlace([x, y]: readonly [number, number], text: string, taken: readonly Box[], widthPx: number, heightPx: number): { readonly x: number; readonly y: number; readonly anchor: Anchor } {
  const inside = ({ left, right, top, bottom }: Box): boolean => left >= 2 && right <= widthPx - 2 && top >= 2 && bottom <= heightPx - 2;
  let last: { readonly x: number; readonly y: number; readonly anchor: Anchor } | null = null;
  for (let round = 1; round <= ROUNDS; round++) {
    const off = OFF_PX * round;
    const places = [
      { x: x + off, y: y - off, anchor: 'start' }, { x: x + off, y: y + off + 6, anchor: 'start' }, { x: x - off, y: y - off, anchor: 'end' }, { x: x - off, y: y + off + 6, anchor: 'end' },
      { x, y: y - off - 4, anchor: 'middle' }, { x, y: y + off + 12, anchor: 'middle' },
    ] as const;
    for (const place of places) {
      const box = boxAround({ ...place, text });
      if (!inside(box)) continue;
      last ??= place;
      if (!taken.some((other) => meet(box, other))) return place;
    }
  }
  return last ?? { x: widthPx / 2, y: 16, anchor: 'middle' };
}
