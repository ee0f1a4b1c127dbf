/** Where the performer is in each frame: the shift that lays the model's world landmarks over its image landmarks. */
import { LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { Track } from '../../pose/track.ts';
import { solveDense } from './bandedCholesky.ts';
import { FIGURE_LANDMARKS } from './layout.ts';

/** Nearest a performer is believed to stand, metres. */
const NEAREST_M = 0.5;

/**
 * Mid-hip of each frame in the camera's frame, metres [T·3]; NaN where nobody was found.
 * Least squares of f·(X + Tx) = x·(Z + Tz) and the same in y over the twelve joints, weighted by visibility.
 */
export function placeRoot(track: Track, focalPx: number): Float64Array {
  const frames = track.timesS.length;
  const out = new Float64Array(frames * 3).fill(Number.NaN);
  for (let t = 0; t < frames; t++) {
    if (track.found[t] !== 1) continue;
    const a = new Float64Array(9);
    const b = new Float64Array(3);
    for (const landmark of FIGURE_LANDMARKS) {
      const l = t * LANDMARK_COUNT + landmark;
      const w = track.visibility[l]! + 0.01;
      const z = track.world[l * 3 + 2]!;
      for (let axis = 0; axis < 2; axis++) {
        const px = axis === 0 ? (track.image[l * 3]! - 0.5) * track.widthPx : (track.image[l * 3 + 1]! - 0.5) * track.heightPx;
        const row = [0, 0, -px / focalPx];
        row[axis] = 1;
        const right = (px / focalPx) * z - track.world[l * 3 + axis]!;
        for (let i = 0; i < 3; i++) {
          for (let j = 0; j < 3; j++) a[i * 3 + j] = a[i * 3 + j]! + w * row[i]! * row[j]!;
          b[i] = b[i]! + w * row[i]! * right;
        }
      }
    }
    if (!solveDense(a, b) || !(b[2]! > NEAREST_M)) continue;
    out.set(b, t * 3);
  }
  return out;
}
