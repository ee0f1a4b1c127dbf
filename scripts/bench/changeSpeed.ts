/**
 * What a change of a setting costs in the app with a long take: how long until the new plan is on the screen, and how long
 * the page stands still for it at most.
 */
import process from 'node:process';
import type { Browser, Page } from 'playwright-core';
import { longTakeBook } from './longTake.ts';
import { type MainThreadTask, traceMainThread } from './mainThread.ts';
import { openLongTake } from './openLongTake.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const DURATION_S = 60;
const FPS = 60;
const CHANGES = 12;
const SCREENS = ['take', 'pace', 'sheet'] as const;

const plansMade = (page: Page): Promise<number[]> => page.evaluate(() => performance.getEntriesByName('plan', 'measure').map((entry) => entry.duration));

async function waitForPlan(page: Page, former: number): Promise<void> {
  await page.waitForFunction((count) => performance.getEntriesByName('plan', 'measure').length > count, former);
  // What follows from it is drawn in the next frames.
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 60)))));
}

async function measured(browser: Browser, page: Page, change: (i: number) => Promise<void>): Promise<{ tasks: readonly MainThreadTask[]; plansMs: number[] }> {
  await page.evaluate(() => performance.clearMeasures('plan'));
  const { tasks } = await traceMainThread(browser, page, async () => {
    for (let i = 0; i < CHANGES; i += 1) {
      const before = (await plansMade(page)).length;
      await change(i);
      await waitForPlan(page, before);
    }
  });
  return { tasks, plansMs: await plansMade(page) };
}

/** @param url of the served dist/ */
export async function changeSpeed(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    say('change: opening a long take and fitting the body to it');
    await openLongTake(page, url, longTakeBook(DURATION_S, FPS));
    // An undo changes the setting whatever screen is shown.
    const show = (screen: string): Promise<void> => page.evaluate((hash) => { location.hash = hash; }, `#/${screen}`);
    await show('pace');
    const slider = page.getByRole('slider', { name: /Smoothing cut-off/ });
    await slider.focus();
    const rows: string[][] = [];
    const add = (what: string, { tasks, plansMs }: { tasks: readonly MainThreadTask[]; plansMs: number[] }): void => {
      const over = tasks.filter((t) => t.workMs > 4).length;
      rows.push([what, String(plansMs.length), timeText(percentile(plansMs, 0.5)), timeText(percentile(plansMs, 0.95)),
        timeText(Math.max(...tasks.map((t) => t.codeMs))), timeText(tasks[0]?.workMs ?? Number.NaN), timeText(tasks[0]?.wallMs ?? Number.NaN), (over / CHANGES).toFixed(1)]);
      for (const task of tasks.slice(0, Number(process.env['BENCH_TASKS'] ?? 0))) say(`  ${task.workMs.toFixed(1)} ms of ${task.wallMs.toFixed(1)}: ${task.mostly}`);
    };
    await page.keyboard.press('ArrowLeft');
    await waitForPlan(page, 0);
    for (const screen of SCREENS) {
      say(`change: ${screen}`);
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      await show(screen);
      await page.waitForTimeout(500);
      add(`cut-off, on ${screen}`, await measured(browser, page, (k) => page.keyboard.press(k % 2 === 0 ? 'Control+z' : 'Control+Shift+z')));
    }
    say('change: a drag of the cut-off');
    await show('pace');
    await slider.focus();
    await page.evaluate(() => performance.clearMeasures('plan'));
    const before = 0;
    const { tasks } = await traceMainThread(browser, page, async () => {
      for (let i = 0; i < 3 * CHANGES; i += 1) await page.keyboard.press(Math.floor(i / 6) % 2 === 0 ? 'ArrowRight' : 'ArrowLeft');
      await waitForPlan(page, before);
      await page.waitForTimeout(400);
    });
    add('drag of the cut-off, on pace', { tasks, plansMs: await plansMade(page) });
    return {
      title: 'Change',
      how: `The app with a made-up take of ${DURATION_S} s at ${FPS} frames a second, ${DURATION_S * FPS} frames, and the body fitted to it; ${CHANGES} changes each (the drag: ${3 * CHANGES} key presses). ` +
        'Plan: from the change until the plan is there. Code: the longest piece of the page’s own code on the main thread. Task: the longest that it does without a pause, with the browser’s layout and painting; its own work, and on the clock, from the browser’s trace.',
      heads: ['change', 'plans|r', 'plan: median|r', '95 %|r', 'longest code|r', 'longest task: work|r', 'on the clock|r', 'tasks over 4 ms a change|r'],
      rows,
    };
  } finally {
    await context.close();
  }
}
