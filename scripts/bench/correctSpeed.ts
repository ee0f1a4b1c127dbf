/**
 * How long one correction takes on a take that is fitted: from the release of a drag to the corrected body, in Node on one thread, as in the
 * app's worker.
 */
import { NO_CORRECTIONS, type Corrections } from '../../src/motion/corrections/corrections.ts';
import { createFitter } from '../../src/motion/fit/fitTake.ts';
import { FIGURE_LANDMARKS, POINT } from '../../src/motion/fit/layout.ts';
import { LONG_DEMO_RATE as RATE, longDemo } from './longDemo.ts';
import { percentile } from './percentile.ts';
import type { BenchResult } from './result.ts';

const SECONDS = 20;
const RUNS = 9;

/** Times each kind of correction on a take of 20 s, at another moment each time. */
export function correctSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const track = longDemo(SECONDS);
  const fitter = createFitter();
  const { figureImage } = fitter.fit(track, 1);
  /** The left elbow put 10 px beside where the fit has it. */
  const placed = (timeS: number): Corrections['placed'][number] => {
    const i = (Math.round(timeS * RATE) * FIGURE_LANDMARKS.length + POINT.leftElbow) * 2;
    return { timeS, landmark: 'leftElbow', x: figureImage[i]! + 10 / track.widthPx, y: figureImage[i + 1]! };
  };
  const at = (run: number): number => 1 + ((SECONDS - 2) * run) / RUNS;
  const kinds: readonly (readonly [string, (timeS: number) => Partial<Corrections>])[] = [
    ['a joint placed', (timeS) => ({ placed: [placed(timeS)] })],
    ['an angle typed', (timeS) => ({ angles: [{ timeS, joint: 'leftElbow', angleDeg: 40 }] })],
    ['a limb turned over in depth for half a second', (timeS) => ({ depthFlips: [{ limb: 'leftArm', bone: 'both', fromS: timeS, toS: timeS + 0.5 }] })],
    ['a foot that stands for a second', (timeS) => ({ contacts: [{ foot: 'left', fromS: timeS, toS: timeS + 1, stands: true }] })],
    ['twenty joints placed, one a second', () => ({ placed: Array.from({ length: SECONDS }, (_, k) => placed(k)) })],
  ];
  const rows = kinds.map(([name, change]) => {
    say(`correction: ${name}`);
    const times = Array.from({ length: RUNS }, (_, run) => {
      const startMs = performance.now();
      fitter.fit(track, 1, { ...NO_CORRECTIONS, ...change(at(run)) });
      return performance.now() - startMs;
    });
    return [name, `${percentile(times, 0.5).toFixed(0)} ms`, `${Math.max(...times).toFixed(0)} ms`];
  });
  return Promise.resolve({
    title: 'Correction',
    how: `A take of ${SECONDS} s at ${RATE} frames a second (the demo's track to and fro), fitted; then one correction of each kind at ${RUNS} moments, in Node on one thread.`,
    heads: ['correction', 'median|r', 'slowest|r'],
    rows,
  });
}
