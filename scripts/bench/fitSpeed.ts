/**
 * How long the body fit of a minute takes, on one thread, as in the worker of the app: the demo's own track, played to and
 * fro until it is a minute long.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { emptyTrack, frameCount, type Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { percentile } from './percentile.ts';
import type { BenchResult } from './result.ts';

const RATE = 30;
const RUNS = 3;

/** A track of any length out of a short one: forward, backward, forward … so that nothing jumps. */
export function toAndFro(short: Track, frames: number): Track {
  const n = frameCount(short);
  const long = emptyTrack(short.model, short.widthPx, short.heightPx, Float64Array.from({ length: frames }, (_, t) => t / RATE));
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

/** Times the fit of clips of 5, 20 and 60 s. */
export async function fitSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const short = trackFromJson(shipped.track);
  fitTake(short, 1);
  const rows = [5, 20, 60].map((seconds) => {
    const track = toAndFro(short, seconds * RATE);
    const times: number[] = [];
    for (let run = 0; run < RUNS; run++) {
      say(`fit: ${seconds} s, ${run + 1} of ${RUNS}`);
      const startMs = performance.now();
      fitTake(track, 1);
      times.push((performance.now() - startMs) / 1000);
    }
    return [`${seconds} s`, String(frameCount(track)), `${percentile(times, 0.5).toFixed(2)} s`, `${Math.max(...times).toFixed(2)} s`];
  });
  return {
    title: 'Body fit',
    how: `The demo's track played to and fro at ${RATE} frames a second, fitted in Node on one thread; ${RUNS} runs each after a warm-up.`,
    heads: ['take', 'frames|r', 'median|r', 'slowest|r'],
    rows,
  };
}
