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
/** Pointer moves of the drag, one a display frame, and how far each goes, px. */
const MOVES = 240;
const MOVE_PX = 3;
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

/** Moves the pressed pointer once a display frame, from the page's own clock; returns the times between frames, ms. */
async function drag(page: Page, x: number, y: number, moves: number): Promise<number[]> {
  // as text: the loader of these scripts names functions by a helper that the page does not have
  await page.evaluate(`{
    const times = window.frameTimes = [];
    const look = (nowMs) => {
      if (window.frameTimes !== times) return;
      times.push(nowMs);
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }`);
  for (let i = 1; i <= moves; i += 1) {
    const turn = i % (moves / 2);
    const away = turn < moves / 4 ? turn : moves / 2 - turn;
    await page.mouse.move(x, y + away * MOVE_PX);
  }
  const times = await page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes);
  return times.slice(1).map((t, i) => t - times[i]!);
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
      await drag(page, x, y, 40);
      await page.waitForTimeout(500);
      await page.evaluate(() => { performance.clearMeasures('plan'); performance.clearMeasures('foreseen'); });
      let gaps: number[] = [];
      let tookMs = 0;
      const tasks = await traceMainThread(browser, page, async () => {
        const startMs = performance.now();
        gaps = await drag(page, x, y, MOVES);
        tookMs = performance.now() - startMs;
      });
      const busyMs = tasks.reduce((sum, { workMs }) => sum + workMs, 0);
      const long = tasks.filter(({ workMs }) => workMs > FRAME_MS).length;
      await page.mouse.up();
      await page.waitForTimeout(800);
      const [plans, foreseen] = [await measured(page, 'plan'), await measured(page, 'foreseen')];
      const late = gaps.filter((ms) => ms > FRAME_MS + LATE_MS).length;
      rows.push([
        what, String(gaps.length), timeText(percentile(gaps, 0.5)), timeText(percentile(gaps, 0.95)), `${((100 * late) / gaps.length).toFixed(0)} %`, timeText(percentile(foreseen, 0.5)), timeText(percentile(foreseen, 0.95)), String(plans.length),
        timeText(percentile(plans, 0.5)), `${((100 * busyMs) / tookMs).toFixed(0)} %`, String(long), timeText(Math.max(...tasks.map((t) => t.codeMs))), timeText(tasks[0]?.workMs ?? Number.NaN), timeText(tasks[0]?.wallMs ?? Number.NaN),
      ]);
      for (const task of tasks.slice(0, Number(process.env['BENCH_TASKS'] ?? 0))) say(`  ${task.workMs.toFixed(1)} ms of ${task.wallMs.toFixed(1)}: ${task.mostly}`);
    }
    return {
      title: 'Drag of a mark',
      how: `The app with a made-up take of ${DURATION_S} s, the body fitted to it, the ${BRAMBLE.joints.length} joints of the largest example, ${facts} steps on ones at ${RATE} exposures a second, ${MARKS} marks; the first mark is dragged to and fro by ${MOVES} moves of the pointer on Pace. ` +
        'Frames: the page’s own animation frames while it is dragged; late: more than 1 ms after the sixtieth of a second. Foreseen: from the move until what the rows show is worked out (times, exposures, curves, moves and pauses, limbs; drawn with the next frame). Plan: from the move until the plan itself is there. Busy: what the page’s main thread worked of the time. ' +
        'Where frames come late and the thread is idle, they wait for the software that draws in the place of a graphics card, and for the worker, which shares the cores with it. Code and task as above.',
      heads: ['drag', 'frames|r', 'between frames: median|r', '95 %|r', 'late|r', 'foreseen: median|r', '95 %|r', 'plans|r', 'plan: median|r', 'main thread busy|r', 'tasks of more than a frame’s work|r', 'longest code|r', 'longest task: work|r', 'on the clock|r'],
      rows,
    };
  } finally {
    await context.close();
  }
}
