/**
 * How long a move of the playhead takes to be seen, on each screen, from the app's own performance measures.
 */
import type { Browser } from 'playwright-core';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const SCREENS = ['take', 'pace', 'sheet'] as const;
const STEPS_EACH_WAY = 50;
/** Steps taken before the measuring starts. */
const WARM_UP = 10;

/** @param url of the served dist/ */
export async function playheadSpeed(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    await page.goto(`${url}?demo`);
    await page.waitForFunction(
      () => Number(document.querySelector('.ladder')?.getAttribute('aria-valuemax')) > 0 && document.querySelector('.job') === null,
      undefined, { timeout: 60_000 },
    );
    const measures = (name: string): Promise<number[]> =>
      page.evaluate((wanted) => performance.getEntriesByName(wanted, 'measure').map((entry) => entry.duration), name);
    const press = async (key: string, times: number): Promise<void> => {
      for (let i = 0; i < times; i += 1) {
        await page.keyboard.press(key);
        // Let the frame be drawn, so that every key press is a redraw of its own.
        await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
      }
    };
    const rows: string[][] = [];
    for (const screen of SCREENS) {
      say(`playhead: ${screen}`);
      await page.evaluate((hash) => { location.hash = hash; }, `#/${screen}`);
      await page.keyboard.press('Home');
      // Pictures of the footage are decoded ahead for a moment after a screen is shown.
      await page.waitForTimeout(1000);
      await press('ArrowDown', WARM_UP);
      await press('Home', 1);
      await page.evaluate(() => { performance.clearMeasures('playhead'); performance.clearMeasures('playhead-draw'); });
      await press('ArrowDown', STEPS_EACH_WAY);
      await press('ArrowUp', STEPS_EACH_WAY);
      const [moved, drawn] = [await measures('playhead'), await measures('playhead-draw')];
      const cells = (times: readonly number[]): string[] => (times.length === 0 ? ['–', '–'] : [timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))]);
      rows.push([screen, String(moved.length), ...cells(drawn), ...cells(moved)]);
    }
    return {
      title: 'Playhead',
      how: `The demo, ${STEPS_EACH_WAY} steps down and ${STEPS_EACH_WAY} up by key. Redraw: the drawing alone. Seen: from the key to the end of the drawing, ` +
        'so with the wait for the next display frame (16.7 ms apart at 60 a second; a window without a display may be slower).',
      heads: ['screen', 'moves|r', 'redraw: median|r', '95 %|r', 'seen: median|r', '95 %|r'],
      rows,
    };
  } finally {
    await context.close();
  }
}
