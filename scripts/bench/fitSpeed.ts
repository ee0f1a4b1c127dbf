/**
 * How long the body fit of a minute takes, on one thread, as in the worker of the app: the demo's own track, played to and
 * fro until it is a minute long.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { frameCount } from '../../src/pose/track.ts';
import { demoTrack, LONG_DEMO_RATE, longDemo } from './longDemo.ts';
import { percentile } from './percentile.ts';
import type { BenchResult } from './result.ts';

const RUNS = 3;

/** Times the fit of clips of 5, 20 and 60 s. */
export async function fitSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  fitTake(demoTrack(), 1);
  const rows = [5, 20, 60].map((seconds) => {
    const track = longDemo(seconds);
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
    how: `The demo's track played to and fro at ${LONG_DEMO_RATE} frames a second, fitted in Node on one thread; ${RUNS} runs each after a warm-up.`,
    heads: ['take', 'frames|r', 'median|r', 'slowest|r'],
    rows,
  };
}
