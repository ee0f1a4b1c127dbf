/**
 * What dragging a mark costs the page: the display frames while a pointer moves a mark to and fro along the rows, with every
 * plan that comes of it, and the longest that the page stands still.
 */
import process from 'node:process';
import type { Browser, Page } from 'playwright-core';
import { DEFAULT_TIMING, type TimeMark } from '../../src/timing/timingSettings.ts';
import { BRAMBLE } from '../../src/puppet/examples/fourLegged.ts';
import { longTakeBook } from './longTake.ts';
import { traceMainThread } from './mainThread.ts';
import { openLongTake } from './openLongTake.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const DURATION_S = 60;
const FPS = 30;
/** Exposures a second, one pose each. */
const RATE = 24;
const MARKS = 12;
/** Pointer moves of the drag: each goes a row further, so that each retimes the film; so far up and down from where the mark stands, px. */
const MOVES = 240;
const REACH_PX = 168;
/** A frame at 60 a second, and how much later its successor may come and still be the next one. */
const FRAME_MS = 1000 / 60;
const LATE_MS = 1;

/** The mark that is dragged, within the first screenful of rows, s. */
const DRAGGED_S = 0.5;

/** Marks at even distances, as performed, so that the drag is what retimes; the first one near the start. */
const marks: readonly TimeMark[] = Array.from({ length: MARKS }, (_, k) => {
  const timeS = k === 0 ? DRAGGED_S : Math.round((k * DURATION_S * RATE) / MARKS) / RATE;
  return { id: `m${k + 1}`, sourceS: timeS, filmS: timeS, locked: false, kind: 'placed', name: '' };
});

const measured = (page: Page, name: 'plan' | 'foreseen'): Promise<number[]> =>
  page.evaluate((of) => performance.getEntriesByName(of, 'measure').map((entry) => entry.duration), name);

/** Moves the pressed pointer down and up again, a row at a time; the browser hands each move over with a display frame of its own. */
async function drag(page: Page, x: number, y: number, rowPx: number, moves: number): Promise<void> {
  const reach = Math.floor(REACH_PX / rowPx);
  for (let i = 1; i <= moves; i += 1) {
    const turn = i % (2 * reach);
    await page.mouse.move(x, y + (turn < reach ? turn : 2 * reach - turn) * rowPx);
  }
}

/** @param url of the served dist/ */
export async function dragSpeed(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    say('drag: opening a minute on ones and fitting the body to it');
    await openLongTake(page, url, longTakeBook(DURATION_S, FPS, (book) => ({
      ...book, armature: BRAMBLE, settings: { ...book.settings, rate: RATE, on: 1 }, timing: { ...DEFAULT_TIMING, marks },
    })));
    await page.evaluate(() => { location.hash = '#/pace'; });
    const facts = await page.evaluate(() => document.querySelector('.ladder')?.getAttribute('aria-valuemax') ?? '0');
    const rows: string[][] = [];
    for (const [what, rowPx] of [['rows of 24 px', 24], ['rows of 4 px', 4]] as const) {
      say(`drag: ${what}`);
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      if (rowPx < 24) for (let k = 0; k < 6; k += 1) await page.keyboard.press('-');
      const grip = page.locator('.grip').first();
      await grip.focus();
      await grip.press('Enter');
      await page.waitForTimeout(1500);
      const box = (await grip.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      // the first plans warm everything up
      await drag(page, x, y, rowPx, 40);
      await page.waitForTimeout(500);
      await page.evaluate(() => { performance.clearMeasures('plan'); performance.clearMeasures('foreseen'); });
      let tookMs = 0;
      const { tasks, frameWorkMs, drawnApartMs, graphicsMs } = await traceMainThread(browser, page, async () => {
        const startMs = performance.now();
        await drag(page, x, y, rowPx, MOVES);
        tookMs = performance.now() - startMs;
      });
      const busyMs = tasks.reduce((sum, { workMs }) => sum + workMs, 0);
      const long = tasks.filter(({ workMs }) => workMs > FRAME_MS).length;
      await page.mouse.up();
      await page.waitForTimeout(800);
      const [plans, foreseen] = [await measured(page, 'plan'), await measured(page, 'foreseen')];
      const share = (of: readonly number[], holds: (ms: number) => boolean): string => `${((100 * of.filter(holds).length) / of.length).toFixed(1)} %`;
      rows.push([
        what, String(frameWorkMs.length), share(frameWorkMs, (ms) => ms < FRAME_MS), timeText(percentile(frameWorkMs, 0.5)), timeText(percentile(frameWorkMs, 0.95)), timeText(Math.max(...frameWorkMs)),
        String(long), `${((100 * busyMs) / tookMs).toFixed(0)} %`, timeText(percentile(foreseen, 0.5)), timeText(percentile(foreseen, 0.95)), String(plans.length), timeText(percentile(plans, 0.5)),
        String(drawnApartMs.length + 1), timeText(percentile(drawnApartMs, 0.5)), timeText(percentile(drawnApartMs, 0.95)),
        share(drawnApartMs, (ms) => ms > FRAME_MS + LATE_MS), `${((100 * graphicsMs) / tookMs).toFixed(0)} %`,
      ]);
      for (const task of tasks.slice(0, Number(process.env['BENCH_TASKS'] ?? 0))) say(`  ${task.workMs.toFixed(1)} ms of ${task.wallMs.toFixed(1)}: ${task.mostly}`);
    }
    return {
      title: 'Drag of a mark',
      how: `The app with a made-up take of ${DURATION_S} s, the body fitted to it, the ${BRAMBLE.joints.length} joints of the largest example, ${facts} steps on ones at ${RATE} exposures a second, ${MARKS} marks; the first mark is dragged to and fro on Pace by ${MOVES} moves of the pointer, each a row further, so that each retimes the film. ` +
        'From the browser’s trace. Frames: display frames that drew something anew. Work of a frame: all that the page’s main thread itself worked (code, style, layout, painting, plans that arrive, clearing of memory) from its beginning to the next one’s, against the 16.7 ms that a frame lasts at 60 a second. Busy: the thread’s work in the time of the drag. ' +
        'Foreseen: from the move until what the rows show is worked out (times, exposures, curves, moves and pauses, limbs; drawn with the next frame). Plan: from the move until the plan itself is there, of those that came during the drag. ' +
        'Drawn: frames that the graphics made of it; late: more than 1 ms after the sixtieth of a second; graphics: how long its thread was at it. On a machine without a graphics card software draws there, and shares the cores with the page and the worker: what frames wait for while the main thread is idle.',
      heads: [
        'drag', 'frames|r', 'under a frame’s work|r', 'work of a frame: median|r', '95 %|r', 'most|r', 'tasks over a frame’s work|r', 'thread busy|r', 'foreseen: median|r', '95 %|r', 'plans|r', 'plan: median|r',
        'drawn|r', 'between drawn: median|r', '95 %|r', 'late|r', 'graphics busy|r',
      ],
      rows,
    };
  } finally {
    await context.close();
  }
}
