/**
 * How long the plan of a minute takes from a fitted body, with the demo's own puppet: standing feet, legs solved again,
 * limits, rounded moves, travel and readings. In Node on one thread, as in the worker of the app.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner, type Planner } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../../src/plan/settings.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { DEFAULT_PUPPET_SETTINGS, type PuppetSettings } from '../../src/puppet/puppetSettings.ts';
import { LONG_DEMO_RATE, longDemo } from './longDemo.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const DURATION_S = 60;
const WARM_UP = 5;
const RUNS = 30;
const ONES: PlanSettings = { ...DEFAULT_SETTINGS, rate: 24, on: 1 };

export function puppetSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const track = longDemo(DURATION_S);
  say(`puppet: fitting the body to ${DURATION_S} s`);
  const body = fitTake(track, 1);
  const plan = (planner: Planner, settings: PlanSettings, puppet: PuppetSettings): Plan => planner.plan(track, MARLA, settings, { body, puppet });
  const kept = createPlanner();
  const { stepCount, joints } = plan(kept, ONES, DEFAULT_PUPPET_SETTINGS);
  // every run changes something, or the planner would hand out what it has
  const works: Readonly<Record<string, (run: number) => Plan>> = {
    'from nothing': () => plan(createPlanner(), ONES, DEFAULT_PUPPET_SETTINGS),
    'after a change of the time scale': (run) => plan(kept, { ...ONES, timeScale: run % 2 === 0 ? 1 : 0.9999 }, DEFAULT_PUPPET_SETTINGS),
    'after a change of what the puppet follows': (run) => plan(kept, ONES, { ...DEFAULT_PUPPET_SETTINGS, drives: run % 2 === 0 ? null : [] }),
    'after a change of the readings': (run) => plan(kept, ONES, { ...DEFAULT_PUPPET_SETTINGS, datum: { ...DEFAULT_PUPPET_SETTINGS.datum, everySteps: 10 + (run % 2) } }),
  };
  const rows = Object.entries(works).map(([what, work]) => {
    say(`puppet: ${what}`);
    const times: number[] = [];
    for (let run = 0; run < WARM_UP + RUNS; run++) {
      const startMs = performance.now();
      work(run);
      if (run >= WARM_UP) times.push(performance.now() - startMs);
    }
    return [what, timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))];
  });
  return Promise.resolve({
    title: 'Plan from a fitted body',
    how: `The demo's track played to and fro for ${DURATION_S} s at ${LONG_DEMO_RATE} frames a second, the body fitted to it, Marla's ${joints.length} joints, ` +
      `${stepCount} steps on ones at 24 exposures a second, in Node on one thread; ${RUNS} runs each after a warm-up.`,
    heads: ['plan made', 'median|r', '95 %|r'],
    rows,
  });
}
