/**
 * A landmark that jumps: for a frame or two the detector takes something else for the joint. Its offset from the figure is
 * then unlike that of the frames about it. Such a frame is weighed little and flagged, not averaged in.
 */
import type { Figure } from './figure.ts';
import { POINT_COUNT } from './layout.ts';
import type { Observations } from './problem.ts';

/** A landmark is held against the frames this far about it; as long as the detector's errors stay alike. */
const NEIGHBOURS_S = 0.2;
/** A landmark that leaves its neighbours' habit by this many image sigmas has jumped (chosen: three times the bias itself). */
export const JUMP_SIGMAS = 3;

/** Joint (without slack) minus landmark in a camera's picture, pixels [T·12·2]; NaN where unseen. */
export function imageOffsets(camera: Observations, { frames, points }: Figure): Float64Array {
  const out = new Float64Array(frames * POINT_COUNT * 2).fill(Number.NaN);
  const { rotation: r, translation: c } = camera;
  for (let p = 0; p < frames * POINT_COUNT; p++) {
    if (camera.weight[p]! === 0) continue;
    const along = (row: number): number => r[row * 3]! * points[p * 3]! + r[row * 3 + 1]! * points[p * 3 + 1]! + r[row * 3 + 2]! * points[p * 3 + 2]! + c[row]!;
    const by = camera.focalPx / along(2);
    for (let axis = 0; axis < 2; axis++) out[p * 2 + axis] = by * along(axis) - camera.image[p * 2 + axis]!;
  }
  return out;
}

/** How far each landmark leaves the habit (the median offset) of its neighbours in time, pixels [T·12]; NaN where unseen. */
export function jumpsOf(offPx: Float64Array, timesS: Float64Array): Float64Array {
  const frames = timesS.length;
  const out = new Float64Array(frames * POINT_COUNT).fill(Number.NaN);
  const near = new Float64Array(frames);
  let first = 0;
  let last = 0;
  for (let t = 0; t < frames; t++) {
    while (timesS[first]! < timesS[t]! - NEIGHBOURS_S) first++;
    while (last < frames - 1 && timesS[last + 1]! <= timesS[t]! + NEIGHBOURS_S) last++;
    for (let p = 0; p < POINT_COUNT; p++) {
      const i = (t * POINT_COUNT + p) * 2;
      if (Number.isNaN(offPx[i]!)) continue;
      let square = 0;
      for (let axis = 0; axis < 2; axis++) {
        // A dozen values: put in order as they come.
        let count = 0;
        for (let u = first; u <= last; u++) {
          const value = offPx[(u * POINT_COUNT + p) * 2 + axis]!;
          if (Number.isNaN(value)) continue;
          let k = count++;
          for (; k > 0 && near[k - 1]! > value; k--) near[k] = near[k - 1]!;
          near[k] = value;
        }
        square += (offPx[i + axis]! - (near[(count - 1) >> 1]! + near[count >> 1]!) / 2) ** 2;
      }
      out[t * POINT_COUNT + p] = Math.sqrt(square);
    }
  }
  return out;
}

/** The same measurements, with landmarks that jump away from what the figure and their neighbours say weighed down. */
export function withoutJumps(camera: Observations, figure: Figure, timesS: Float64Array): Observations {
  const jumps = jumpsOf(imageOffsets(camera, figure), timesS);
  const limit = JUMP_SIGMAS * camera.sigmaPx;
  return { ...camera, weight: camera.weight.map((w, i) => (jumps[i]! > limit ? w * (limit / jumps[i]!) ** 4 : w)) };
}
