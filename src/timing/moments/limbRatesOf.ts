/** How fast each limb goes from step to step. */
import type { Poses } from '../poses.ts';
import type { LimbRates } from './limbRates.ts';
import { LIMBS } from './moments.ts';

/** What the speeds are read from: N steps, L limbs. */
export interface LimbRateSources {
  /** The performer at the steps. */
  readonly poses: Poses;
  /** `[N]` seconds on the film. */
  readonly filmTimeS: Float64Array;
  readonly performerHeightM: number;
  readonly legLengthM: number;
  /** `[N·L·3]` place of each limb's end on the set, mm; NaN where the puppet has no such limb. */
  readonly endMm: Float64Array;
}

export function limbRatesOf({ poses }: LimbRateSources): LimbRates {
  const size = poses.timesS.length * LIMBS.length;
  const unknown = (): Float64Array => new Float64Array(size).fill(Number.NaN);
  return { turnDeg: unknown(), endMm: unknown(), heightsPerS: unknown() };
}
