/**
 * How much slower a figure must move to read as large: dynamic similarity.
 *
 * Animals of one shape move alike where their Froude numbers v²/(g·L) are equal; then all times go with the square root of
 * the lengths (Alexander & Jayes 1983, J Zool 201:135-152). The same rule sets the frame rate for models of falling and
 * breaking things. It is offered, never imposed: what reads is the animator's to judge.
 */
export const GRAVITY_M_S2 = 9.81;

/** Film time ÷ performer's time that makes the performance read as that of a figure of the apparent height. */
export function timeScaleOffered(apparentHeightM: number, performerHeightM: number): number {
  return Math.sqrt(apparentHeightM / performerHeightM);
}

/** Froude number of a walk at `speedMS` with hips at `legM`. */
export function froudeNumber(speedMS: number, legM: number): number {
  return (speedMS * speedMS) / (GRAVITY_M_S2 * legM);
}

/** Speed at which a leg of another length walks with the same Froude number. */
export function speedOfEqualFroude(speedMS: number, legM: number, otherLegM: number): number {
  return speedMS * Math.sqrt(otherLegM / legM);
}

/** Height of hips over stature: Drillis & Contini 1966, in Winter (0.530; from memory, seen in stored code). */
const HIP_HEIGHT_SHARE = 0.53;

/** The performer's height from the length of the legs, metres. */
export function performerHeightM(legLengthM: number): number {
  return legLengthM / HIP_HEIGHT_SHARE;
}

/** The offer in words, with its reason. */
export function timeScaleReason(apparentHeightM: number, ofPerformerM: number): string {
  const by = timeScaleOffered(apparentHeightM, ofPerformerM);
  const times = by >= 1 ? `${by.toFixed(2)} times slower` : `${(1 / by).toFixed(2)} times faster`;
  return `A figure of ${apparentHeightM} m moves ${times} than a performer of ${ofPerformerM.toFixed(2)} m: times go with the square root of the size (equal Froude numbers, Alexander & Jayes 1983).`;
}
