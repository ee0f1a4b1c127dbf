/** The demo's own track, as the model measured it, and played to and fro until it is as long as wanted. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { emptyTrack, frameCount, type Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';

/** Frames a second. */
export const LONG_DEMO_RATE = 30;

export function demoTrack(): Track {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  return trackFromJson(shipped.track);
}

export function longDemo(seconds: number): Track {
  return toAndFro(demoTrack(), seconds * LONG_DEMO_RATE);
}

/** A track of any length out of a short one: forward, backward, forward … so that nothing jumps. */
function toAndFro(short: Track, frames: number): Track {
  const n = frameCount(short);
  const long = emptyTrack(short.model, short.widthPx, short.heightPx, Float64Array.from({ length: frames }, (_, t) => t / LONG_DEMO_RATE));
  for (let t = 0; t < frames; t++) {
    const lap = t % (2 * (n - 1));
    const from = lap < n ? lap : 2 * (n - 1) - lap;
    for (const name of ['image', 'world', 'visibility', 'found'] as const) {
      const size = short[name].length / n;
      long[name].set(short[name].subarray(from * size, (from + 1) * size), t * size);
    }
  }
  return long;
}
