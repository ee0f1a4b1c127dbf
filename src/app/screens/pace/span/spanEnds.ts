/** Where the two ends of a span are taken hold of, and what a drag makes of it. Steps from 0, both ends included. */
export type StepSpan = readonly [from: number, to: number];

/** Height of what an end is taken hold of by, px. */
export const END_PX = 44;

/**
 * Upper edges of the two grips: within the span at its ends, or, where it is too short for both, about its middle and below
 * the first row's upper edge.
 */
export function endPlaces([from, to]: StepSpan, rowPx: number): { readonly fromY: number; readonly toY: number } {
  const top = from * rowPx;
  const bottom = (to + 1) * rowPx;
  if (bottom - top >= 2 * END_PX) return { fromY: top, toY: bottom - END_PX };
  const fromY = Math.max(0, (top + bottom) / 2 - END_PX);
  return { fromY, toY: fromY + END_PX };
}

/** From where a drag was begun to where it is. */
export function spanBetween(a: number, b: number): StepSpan {
  return a <= b ? [a, b] : [b, a];
}

/** A span within a plan of so many steps. */
export function spanWithin(span: StepSpan | null, steps: number): StepSpan | null {
  return span === null || steps === 0 ? null : [Math.min(span[0], steps - 1), Math.min(span[1], steps - 1)];
}
