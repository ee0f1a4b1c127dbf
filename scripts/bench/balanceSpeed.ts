/**
 * How long the balance of a minute on ones takes, with the demo's own puppet: centres of mass, what touches, margins,
 * verdicts, spans, flights. In Node on one thread, as in the worker of the app.
 */
import type { PoiseSettings } from '../../src/balance/poiseSettings.ts';
import { DEFAULT_POISE } from '../../src/balance/poiseSettings.ts';
import { judgeBalance } from '../../src/balance/judgeBalance.ts';
import { performerMass } from '../../src/balance/performerMass.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { movePuppet } from '../../src/puppet/movePuppet.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../../src/puppet/puppetSettings.ts';
import { performerHeightM } from '../../src/puppet/timeScale.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import { LONG_DEMO_RATE, longDemo } from './longDemo.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, timeText } from './result.ts';

const DURATION_S = 60;
const WARM_UP = 10;
const RUNS = 60;

export function balanceSpeed(_browser: unknown, _url: string, say: (line: string) => void): Promise<BenchResult> {
  const track = longDemo(DURATION_S);
  say(`balance: fitting the body to ${DURATION_S} s`);
  const body = fitTake(track, 1);
  const settings = { ...DEFAULT_SETTINGS, rate: 24, on: 1 } as const;
  const planner = createPlanner();
  const plan = planner.plan(track, MARLA, settings, { body });
  const motion = planner.motion(track, settings, body);
  const poses = sampleMotion(motion, plan.sourceTimeS);
  const moved = movePuppet(() => poses, motion, MARLA, DEFAULT_PUPPET_SETTINGS);
  const { stepCount, exposure, holds, filmTimeS, sourceTimeS } = plan;
  const sources = {
    armature: completeArmature(MARLA), moved, ordered: { rotations: plan.orderedRotations, rootMm: plan.orderedRootMm }, poses,
    performerHeightM: performerHeightM(motion.legLengthM), performer: performerMass(body, DEFAULT_POISE.table, false),
    apparentHeightM: null, steps: { count: stepCount, exposure, holds, filmTimeS, sourceTimeS },
  };
  const jar = (fromS: number): PoiseSettings => ({
    ...DEFAULT_POISE,
    props: [{ name: 'jar', bone: 'leftHand', atMm: [0, -20, 0], massG: 20, fromS, toS: 30 }],
    touches: [{ bone: 'rightHand', fromS: 10, toS: 12, touches: true }], tieDowns: [{ foot: 'leftFoot', fromS: 0, toS: 40 }],
  });
  const rows = ([['as the take has it', () => DEFAULT_POISE], ['with a prop, a hand that touches, a tie-down', (run: number) => jar(run / 100)]] as const).map(([what, poise]) => {
    say(`balance: ${what}`);
    const times: number[] = [];
    for (let run = 0; run < WARM_UP + RUNS; run++) {
      const startMs = performance.now();
      judgeBalance(sources, poise(run));
      if (run >= WARM_UP) times.push(performance.now() - startMs);
    }
    return [what, timeText(percentile(times, 0.5)), timeText(percentile(times, 0.95))];
  });
  return Promise.resolve({
    title: 'Balance',
    how: `The demo's track played to and fro for ${DURATION_S} s at ${LONG_DEMO_RATE} frames a second, Marla's ${plan.joints.length} joints, ${stepCount} steps on ones; ` +
      `everything of \`plan.balance\`, in Node on one thread; ${RUNS} runs each after a warm-up.`,
    heads: ['balance judged', 'median|r', '95 %|r'],
    rows,
  });
}
