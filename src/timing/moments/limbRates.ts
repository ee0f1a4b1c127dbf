/** How fast each limb goes at each step: shape only. */

/**
 * N steps, L limbs in the order of LIMBS; NaN where there is no pose; 0 at the first.
 * - `turnDeg[N·L]` way that the limb's joints turn since the step before: that of the joint that turns most.
 * - `endMm[N·L]` way of the limb's end on the puppet, mm; NaN for a limb that the puppet does not have.
 * - `heightsPerS[N·L]` speed of that end in heights of the puppet for a second of film.
 */
export interface LimbRates {
  readonly turnDeg: Float64Array;
  readonly endMm: Float64Array;
  readonly heightsPerS: Float64Array;
}
