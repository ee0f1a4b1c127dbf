/** From mark to mark, as keys go. */
import type { TimeMark } from '../timingSettings.ts';

/** How a step of the film lies in it, seconds: its first moment, and the first of the next step. */
export interface StepSpanS {
  readonly fromS: number;
  readonly toS: number;
}

/**
 * The next mark (`by` 1) or the one before (−1): from the mark that is held, else from the playhead's step, whose own mark
 * comes first.
 *
 * @param marks rising in film time
 * @returns `undefined` where there is none that way
 */
export function markBeside(marks: readonly TimeMark[], heldId: string | null, { fromS, toS }: StepSpanS, by: 1 | -1): TimeMark | undefined {
  const held = marks.findIndex(({ id }) => id === heldId);
  if (held >= 0) return marks[held + by];
  // far less than an exposure, and more than rounding
  const nothingS = 1e-6;
  return by > 0 ? marks.find(({ filmS }) => filmS > fromS - nothingS) : marks.findLast(({ filmS }) => filmS < toS - nothingS);
}
