/** Verdicts and directions in the words of files. */
import { VERDICTS, type Verdict } from './balance.ts';

/** Eight ways on the set: front is toward the camera in front of it, left and right as in that camera's picture. */
export const WAYS = ['front', 'front left', 'left', 'back left', 'back', 'back right', 'right', 'front right'] as const;
export type Way = (typeof WAYS)[number];

/** The nearest of the eight to a direction of `towardDeg`; `null` where it is not known. */
export function wayOf(towardDeg: number): Way | null {
  if (Number.isNaN(towardDeg)) return null;
  return WAYS[((Math.round(towardDeg / 45) % 8) + 8) % 8]!;
}

/** Index in VERDICTS → the verdict. */
export function verdictOf(index: number): Verdict {
  return VERDICTS[index] ?? 'not known';
}
