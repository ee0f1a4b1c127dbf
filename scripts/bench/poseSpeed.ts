/**
 * How much of the engine's own speed is left in the whole pose run: decode, draw, pose, messages.
 */
import type { Browser } from 'playwright-core';
import { median } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const MODEL = 'full';
const REPEATS = 3;
/** Frames each bare worker keeps decoded, spread over the clip. */
const KEEP = 48;
const CLIP = 'reference-clips/one-leg-reach.webm';

/**
 * All of it in one session of one page, whole runs and bare loops by turns, so that a machine that slows down slows both.
 */
export async function poseSpeed(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  const page = await browser.newPage();
  page.setDefaultTimeout(0);
  try {
    await page.goto(url);
    await page.waitForFunction(() => window.nudgebookBench !== undefined);
    const clip = await page.evaluate((address) => window.nudgebookBench!.open(address), CLIP);
    const whole = (workers: number | undefined) => page.evaluate(([model, count]) => window.nudgebookBench!.whole(model, count), [MODEL, workers] as const);
    const bare = (workers: number, rounds: number) => page.evaluate(([model, count, keep, times]) => window.nudgebookBench!.bare(model, count, keep, times), [MODEL, workers, KEEP, rounds] as const);

    // Warm-up: brings engine, model and clip into the browser's caches, and tells how many workers a run takes by itself.
    say('pose run: warming up');
    const all = (await whole(undefined)).workers;
    const counts = all > 1 ? [1, all] : [1];
    const rows: string[][] = [];
    const steady = new Map<number, number>();
    const bareOf = new Map<number, number>();
    const runs = counts.map((workers) => ({ workers, whole: [] as Awaited<ReturnType<typeof whole>>[], bare: [] as number[] }));
    for (let repeat = 1; repeat <= REPEATS; repeat += 1) {
      for (const run of runs) {
        say(`pose run: ${run.workers} worker(s), ${repeat} of ${REPEATS}`);
        run.whole.push(await whole(run.workers));
        run.bare.push((await bare(run.workers, 1)).framesPerS);
      }
    }
    for (const { workers, whole: wholes, bare: bares } of runs) {
      steady.set(workers, median(wholes.map((one) => one.steadyFramesPerS)));
      bareOf.set(workers, median(bares));
      const ratio = median(wholes.map((one, i) => one.steadyFramesPerS / bares[i]!));
      rows.push([
        workers === all && all > 1 ? `${workers} (all)` : String(workers),
        median(bares).toFixed(1), median(wholes.map((one) => one.steadyFramesPerS)).toFixed(1), ratio.toFixed(2),
        median(wholes.map((one) => one.framesPerS)).toFixed(1), timeText(1000 * median(wholes.map((one) => one.elapsedS))),
      ]);
    }
    if (all > 1) {
      const gain = (speeds: ReadonlyMap<number, number>): string => `×${(speeds.get(all)! / speeds.get(1)!).toFixed(2)}`;
      rows.push([`gain of ${all} over 1`, gain(bareOf), gain(steady), '', '', '']);
    }
    return {
      title: 'Pose run',
      how: `Model ${MODEL}, a clip of ${clip.frames} frames of ${clip.widthPx} × ${clip.heightPx}; medians of ${REPEATS} runs, whole runs and bare loops by turns. ` +
        `The bare loop calls the landmarker on ${KEEP} frames that are decoded and drawn beforehand, as many loops side by side as there are workers. ` +
        'The whole run is what the app does. Both without loading; the last two columns count loading of engine and model too.',
      heads: ['workers', 'bare loop, frames/s|r', 'whole run, frames/s|r', 'whole ÷ bare|r', 'with loading, frames/s|r', 'whole clip in|r'],
      rows,
    };
  } finally {
    await page.close();
  }
}
