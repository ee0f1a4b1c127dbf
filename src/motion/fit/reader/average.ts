/** Readings averaged evenly about a frame, as the landmarks are for a knot. */
import { DEPTH_VECTORS, LIMB_COUNT, POINT_COUNT } from '../layout.ts';
import type { Readings } from './readTrack.ts';

/** Room for the readings of so many moments. */
export function emptyReadings(count: number): Readings {
  return {
    shiftSigmaM: new Float64Array(count * POINT_COUNT), lean: new Float64Array(count * DEPTH_VECTORS), leanSigma: new Float64Array(count * DEPTH_VECTORS),
    bendRad: new Float64Array(count * LIMB_COUNT), bendSigmaRad: new Float64Array(count * LIMB_COUNT),
  };
}

/**
 * @param even frames before and after that are there; weights fall linearly to 0 at `reach` + 1
 * @returns the readings of one frame. Sigmas are averaged and not narrowed: neighbouring frames share their errors.
 */
export function averageReadings(all: Readings, frame: number, even: number, reach: number): Readings {
  const out = emptyReadings(1);
  let total = 0;
  for (let o = -even; o <= even; o++) total += 1 - Math.abs(o) / (reach + 1);
  for (const name of ['shiftSigmaM', 'lean', 'leanSigma', 'bendRad', 'bendSigmaRad'] as const) {
    const to = out[name];
    for (let o = -even; o <= even; o++) {
      const w = (1 - Math.abs(o) / (reach + 1)) / total;
      const from = (frame + o) * to.length;
      for (let i = 0; i < to.length; i++) to[i] = to[i]! + w * all[name][from + i]!;
    }
  }
  return out;
}
