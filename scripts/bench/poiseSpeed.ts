/**
 * How long one correction of the balance takes, with the demo's own puppet: the smallest change, the plan with it in, and its
 * judgement as ordered. In Node on one thread, as in the worker of the app.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { MEANS } from '../../src/balance/correct/means.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const WARM_UP = 3;
const RUNS = 20;
const FIRST_STEP = 20;

/** Times one span that a margin is found for, longer and shorter, and one that nothing within the limits holds. */
export function poiseSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  const body = fitTake(track, 1);
  const planner = createPlanner();
  planner.plan(track, MARLA, DEFAULT_SETTINGS, { body });
  const asks = [['6 steps, 1 mm', 6, 1], ['6 steps, 2 mm', 6, 2], ['14 steps, 2 mm', 14, 2], ['27 steps, 2 mm', 27, 2], ['6 steps, 20 mm', 6, 20]] as const;
  const rows = asks.map(([what, steps, marginMm]) => {
    say(`correction of the balance: ${what}`);
    const times: number[] = [];
    let came = '';
    for (let run = 0; run < WARM_UP + RUNS; run++) {
      const startMs = performance.now();
      const { kind } = planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'bench', fromStep: FIRST_STEP, toStep: FIRST_STEP + steps - 1, marginMm, means: MEANS }, { body });
      if (run >= WARM_UP) times.push(performance.now() - startMs);
      came = kind;
    }
    return [what, came === 'found' ? 'found' : came === 'cannot' ? 'can’t be had' : 'has it already', timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))];
  });
  return Promise.resolve({
    title: 'Correction of the balance',
    how: `The demo's reach on one leg, Marla, on twos, from step ${FIRST_STEP + 1}; pelvis, spine and arms; ${RUNS} runs each after a warm-up, in Node on one thread.`,
    heads: ['span and margin', 'what came', 'median|r', '95 %|r'],
    rows,
  });
}
