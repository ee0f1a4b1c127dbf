/**
 * How long the plan of a minute takes after a mark was dragged: from a fitted body, on ones, with the demo's own puppet. In Node on one
 * thread, as in the worker of the app.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../../src/plan/settings.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { moveMark, placeMark, type MarkContext } from '../../src/timing/marks/marks.ts';
import { baseOf } from '../../src/timing/steps.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../../src/timing/timingSettings.ts';
import { LONG_DEMO_RATE, longDemo } from './longDemo.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const DURATION_S = 60;
const MARKS_EVERY_S = 3;
const WARM_UP = 10;
const RUNS = 60;
const ONES: PlanSettings = { ...DEFAULT_SETTINGS, rate: 24, on: 1 };

export function retimeSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const track = longDemo(DURATION_S);
  say(`retime: fitting the body to ${DURATION_S} s`);
  const body = fitTake(track, 1);
  const { timesS } = track;
  const context: MarkContext = { base: baseOf(ONES, timesS[0]!, timesS[timesS.length - 1]!), rate: ONES.rate };
  let marked = DEFAULT_TIMING;
  for (let t = MARKS_EVERY_S; t < DURATION_S; t += MARKS_EVERY_S) {
    marked = placeMark(marked, context, { id: String(t), sourceS: timesS[0]! + t, kind: 'placed', name: '' });
  }
  const planner = createPlanner();
  const plan = (timing: TimingSettings): Plan => planner.plan(track, MARLA, ONES, { body, timing });
  const dragged = (id: number, run: number): TimingSettings => moveMark(marked, context, String(id), id + (1 + (run % 12)) / ONES.rate);
  const { stepCount, joints } = plan(marked);
  const places: Readonly<Record<string, number>> = { 'a mark near the start': 3, 'a mark in the middle': 30, 'a mark near the end': 57 };
  const rows = Object.entries(places).map(([what, id]) => {
    say(`retime: ${what}`);
    const times: number[] = [];
    for (let run = 0; run < WARM_UP + RUNS; run++) {
      const startMs = performance.now();
      plan(dragged(id, run));
      if (run >= WARM_UP) times.push(performance.now() - startMs);
    }
    return [what, timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))];
  });
  return Promise.resolve({
    title: 'Plan after a mark was dragged',
    how: `The demo's track played to and fro for ${DURATION_S} s at ${LONG_DEMO_RATE} frames a second, the body fitted to it, Marla's ${joints.length} joints, ` +
      `${stepCount} steps on ones at 24 exposures a second, a mark every ${MARKS_EVERY_S} s, in Node on one thread; the mark goes to another exposure ${RUNS} times after a warm-up.`,
    heads: ['what was dragged', 'median|r', '95 %|r'],
    rows,
  });
}
