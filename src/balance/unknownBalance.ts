/** A balance of which nothing is known: of a plan without a pose, or of a puppet that can't be judged. */
import { VERDICTS, type Balance } from './balance.ts';

const NOT_KNOWN = VERDICTS.indexOf('not known');

/**
 * @param steps N
 * @param notes why nothing is known
 */
export function unknownBalance(steps: number, touchNames: readonly string[] = [], notes: readonly string[] = []): Balance {
  const unknown = (width: number): Float64Array => new Float64Array(steps * width).fill(Number.NaN);
  return {
    massG: 0,
    touchNames,
    massMm: unknown(3), massSigmaMm: unknown(2), marginSigmaMm: unknown(1), moveSigmaMm: unknown(1), movedMm: unknown(2), performerM: unknown(3),
    touching: new Uint8Array(steps * touchNames.length), unseen: new Uint8Array(steps * touchNames.length),
    support: Array.from({ length: steps }, () => new Float64Array(0)),
    standMm: unknown(1), standShare: unknown(1), moveMm: unknown(1), moveShare: unknown(1),
    standVerdict: new Uint8Array(steps).fill(NOT_KNOWN), moveVerdict: new Uint8Array(steps).fill(NOT_KNOWN),
    towardDeg: unknown(1), moveTowardDeg: unknown(1), tippingNmm: unknown(1),
    oneLeg: [], flights: [], hardware: [], notes,
  };
}
