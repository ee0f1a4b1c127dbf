/**
 * How long the plan of a long take needs when something is changed, in Node and in a page.
 */
import type { Browser } from 'playwright-core';
import { percentile } from './percentile.ts';
import { type PlanTimes, timePlans } from './planRebuild.ts';
import { type BenchResult, timeText } from './result.ts';
import { syntheticTrack } from './syntheticTrack.ts';

const DURATION_S = 60;
const FPS = 60;

export async function planSpeed(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  say('plan: in Node');
  const inNode = timePlans(syntheticTrack(DURATION_S, FPS), () => performance.now());
  say('plan: in a page');
  const page = await browser.newPage();
  page.setDefaultTimeout(0);
  try {
    await page.goto(url);
    await page.waitForFunction(() => window.nudgebookBench !== undefined);
    const inPage = await page.evaluate(([durationS, fps]) => window.nudgebookBench!.plans(durationS, fps), [DURATION_S, FPS] as const);
    const cells = (times: PlanTimes, what: string): string[] => [timeText(percentile(times[what]!, 0.5)), timeText(percentile(times[what]!, 0.95))];
    return {
      title: 'Plan',
      how: `A made-up track of ${DURATION_S} s at ${FPS} frames a second, ${DURATION_S * FPS} frames, to a plan at 24 exposures a second on twos unless said otherwise, from the landmarks alone or from the body fitted to them; ` +
        `${inNode['from nothing']!.length} runs each after a warm-up.`,
      heads: ['plan made', 'page: median|r', '95 %|r', 'Node: median|r', '95 %|r'],
      rows: Object.keys(inNode).map((what) => [what, ...cells(inPage, what), ...cells(inNode, what)]),
    };
  } finally {
    await page.close();
  }
}
