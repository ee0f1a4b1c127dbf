/**
 * Reads every frame of a track: how each bone leans in depth, how far elbows and knees are bent, how far off both may be, and how far each joint may be from its landmark.
 * Where it is beside its landmark is read as well but not used: the fit was no better for it (docs/method-fit.md).
 */
import { frameCount, type Track } from '../../../pose/track.ts';
import { DEPTH_VECTORS, LIMB_COUNT, POINT_COUNT } from '../layout.ts';
import { readTogether, type Ensemble } from './ensemble.ts';
import { GROUPS, inputCount, writeInputs } from './groups.ts';
import { SIGHT_SIZE, writeSight } from './sight.ts';

/**
 * T frames; zeros and infinite sigmas where nobody was found.
 *
 * - `shiftSigmaM[T·12]` one sigma of a joint's place beside its landmark, across the view, in either direction, metres of the model's own body.
 * - `lean[T·11]` depth of each vector's unit direction, away from the camera positive, -1..1: 8 bones, hip half-axis, spine, shoulder half-axis.
 * - `leanSigma[T·11]` one sigma of it.
 * - `bendRad[T·4]` flexion of left and right elbow, left and right knee, 0 when straight; `bendSigmaRad[T·4]` one sigma of it.
 */
export interface Readings {
  readonly shiftSigmaM: Float64Array;
  readonly lean: Float64Array;
  readonly leanSigma: Float64Array;
  readonly bendRad: Float64Array;
  readonly bendSigmaRad: Float64Array;
}

/** What the reader says of a half: shifts (x, y) of shoulder, elbow, wrist, hip, knee, ankle; leans of upper arm, forearm, thigh, shank; of hips' line, spine, shoulders' line; bends of elbow, knee. */
export const SHIFTS = 12;
export const LEANS = 7;
export const BENDS = 2;
export const OUTPUT_COUNT = SHIFTS + LEANS + BENDS;
/** Point of the left half for each of the six joints; the right one follows it. */
const POINTS = [0, 2, 4, 6, 8, 10];
/** Vector of depth for each lean: of the left half, of the right half. The last three are the trunk's, read by both. */
const VECTORS = [[0, 2], [1, 3], [4, 6], [5, 7], [8, 8], [9, 9], [10, 10]] as const;
const TRUNK_FROM = 4;
/** The lines from the right to the left turn over in the mirror; the spine doesn't. */
const TURNS_OVER = [false, false, false, false, true, false, true];

/** @param nets an ensemble for each of GROUPS @param tellsHalf as the networks were taught: see sight.ts */
export function readTrack(track: Track, nets: readonly Ensemble[], tellsHalf: boolean): Readings {
  const frames = frameCount(track);
  const shiftSigmaM = new Float64Array(frames * POINT_COUNT).fill(Number.POSITIVE_INFINITY);
  const lean = new Float64Array(frames * DEPTH_VECTORS);
  const leanSigma = new Float64Array(frames * DEPTH_VECTORS).fill(Number.POSITIVE_INFINITY);
  const bendRad = new Float64Array(frames * LIMB_COUNT);
  const bendSigmaRad = new Float64Array(frames * LIMB_COUNT).fill(Number.POSITIVE_INFINITY);
  const sight = new Float64Array(SIGHT_SIZE);
  const parts = GROUPS.map((group, g) => ({
    group, nets: nets[g]!, x: new Float64Array(inputCount(group)), values: new Float64Array(group.outputs.length), sigmas: new Float64Array(group.outputs.length),
  }));
  const values = [new Float64Array(OUTPUT_COUNT), new Float64Array(OUTPUT_COUNT)] as const;
  const sigmas = [new Float64Array(OUTPUT_COUNT), new Float64Array(OUTPUT_COUNT)] as const;
  for (let t = 0; t < frames; t++) {
    if (track.found[t] !== 1) continue;
    for (const half of [0, 1] as const) {
      writeSight(track, t, half === 1, tellsHalf, sight);
      for (const part of parts) {
        writeInputs(part.group, sight, part.x);
        readTogether(part.nets, part.x, part.values, part.sigmas);
        part.group.outputs.forEach((output, k) => {
          values[half][output] = part.values[k]!;
          sigmas[half][output] = part.sigmas[k]!;
        });
      }
      for (const [n, left] of POINTS.entries()) {
        const i = t * POINT_COUNT + left + half;
        shiftSigmaM[i] = Math.hypot(sigmas[half][n * 2]!, sigmas[half][n * 2 + 1]!) / Math.SQRT2;
      }
      for (let n = 0; n < BENDS; n++) {
        const i = t * LIMB_COUNT + n * 2 + half;
        bendRad[i] = Math.max(0, values[half][SHIFTS + LEANS + n]!);
        bendSigmaRad[i] = sigmas[half][SHIFTS + LEANS + n]!;
      }
    }
    for (const [n, [left, right]] of VECTORS.entries()) {
      const [a, b] = [values[0][SHIFTS + n]!, (TURNS_OVER[n] === true ? -1 : 1) * values[1][SHIFTS + n]!];
      const [s, u] = [sigmas[0][SHIFTS + n]!, sigmas[1][SHIFTS + n]!];
      const at = t * DEPTH_VECTORS;
      if (n >= TRUNK_FROM) {
        lean[at + left] = (a + b) / 2;
        // Both halves look at one picture: their errors are one error, and where they disagree it is larger.
        leanSigma[at + left] = Math.hypot((s + u) / 2, (a - b) / 2);
      } else {
        lean[at + left] = a;
        leanSigma[at + left] = s;
        lean[at + right] = b;
        leanSigma[at + right] = u;
      }
    }
  }
  for (let i = 0; i < lean.length; i++) lean[i] = Math.min(1, Math.max(-1, lean[i]!));
  return { shiftSigmaM, lean, leanSigma, bendRad, bendSigmaRad };
}
