/**
 * How long one correction of the balance takes, with the demo's own puppet: the smallest change, the plan with it in, and its
 * judgement as ordered. In Node on one thread, as in the worker of the app.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CorrectionResult } from '../../src/balance/correct/correctionShapes.ts';
import { MEANS } from '../../src/balance/correct/means.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const WARM_UP = 10;
const RUNS = 40;
const FIRST_STEP = 20;
/** Steps, margin in mm, what is special about it. */
const ASKS = [[6, 1, ''], [6, 2, ''], [14, 2, ''], [27, 2, ''], [6, 20, ', wider than the sole'], [30, 3, ', to the landing']] as const;

function cameWords(came: CorrectionResult): string {
  if (came.kind === 'found') return `found, ${came.turnDeg.toFixed(1)}° of turns at the worst step`;
  return came.kind === 'cannot' ? `can’t be had; ${came.reachableMm.toFixed(1)} mm can` : 'has it already';
}

/** Times one span that a margin is found for, longer and shorter, and one that nothing within the limits holds. */
export function poiseSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  const body = fitTake(track, 1);
  const planner = createPlanner();
  planner.plan(track, MARLA, DEFAULT_SETTINGS, { body });
  const rows = ASKS.map(([steps, marginMm, note]) => {
    const what = `${steps} steps, ${marginMm} mm${note}`;
    say(`correction of the balance: ${what}`);
    const times: number[] = [];
    let came: CorrectionResult | null = null;
    for (let run = 0; run < WARM_UP + RUNS; run++) {
      const startMs = performance.now();
      came = planner.correct(track, MARLA, DEFAULT_SETTINGS, { id: 'bench', fromStep: FIRST_STEP, toStep: FIRST_STEP + steps - 1, marginMm, means: MEANS }, { body });
      if (run >= WARM_UP) times.push(performance.now() - startMs);
    }
    return [what, cameWords(came!), timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))];
  });
  return Promise.resolve({
    title: 'Correction of the balance',
    how: `The demo's reach on one leg, Marla, on twos, from step ${FIRST_STEP + 1}; pelvis, spine and arms; ${RUNS} runs each after a warm-up, in Node on one thread.`,
    heads: ['span and margin', 'what came', 'median|r', '95 %|r'],
    rows,
  });
}
