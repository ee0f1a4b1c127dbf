/** A clip's balance as everybody gets it, beside that of the figure's exact pose on the same puppet. */
import type { Balance } from '../../src/balance/balance.ts';
import { judgeBalance } from '../../src/balance/judgeBalance.ts';
import { DEFAULT_POISE } from '../../src/balance/poiseSettings.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { Track } from '../../src/pose/track.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { movePuppet } from '../../src/puppet/movePuppet.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../../src/puppet/puppetSettings.ts';
import { performerHeightM } from '../../src/puppet/timeScale.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import type { Truth } from '../accuracy/truthFile.ts';
import { trueMotion } from './truePoses.ts';

export interface ClipBalance {
  readonly plan: Plan;
  readonly measured: Balance;
  readonly exact: Balance;
}

/** Default settings: 24 exposures a second on twos. Both at the same steps. */
export function clipBalance(truth: Truth, track: Track, body: FittedBody, armature: Armature): ClipBalance {
  const plan = createPlanner().plan(track, armature, DEFAULT_SETTINGS, { body });
  const motion = trueMotion(truth);
  const poses = sampleMotion(motion, plan.sourceTimeS);
  const moved = movePuppet(() => poses, motion, armature, DEFAULT_PUPPET_SETTINGS);
  const { stepCount, exposure, holds, filmTimeS, sourceTimeS } = plan;
  const exact = judgeBalance({
    armature: completeArmature(armature), moved, ordered: moved, poses, performerHeightM: performerHeightM(motion.legLengthM), performer: null,
    apparentHeightM: null, steps: { count: stepCount, exposure, holds, filmTimeS, sourceTimeS },
  }, DEFAULT_POISE);
  return { plan, measured: plan.balance, exact };
}
