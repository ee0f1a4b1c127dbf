/** Steps at which the puppet must have a joint's extreme: those that time was bent for. */
import type { CompleteArmature } from '../puppet/complete.ts';
import { drivesOf } from '../puppet/drives.ts';
import type { PuppetSettings } from '../puppet/puppetSettings.ts';
import type { Stepped } from './stepped.ts';

/** Film times of a bent extreme and of its step are the same but for rounding, seconds. */
const SAME_S = 1e-9;

/**
 * `[N·P]` 1 where a puppet's joint that follows the performer's has an extreme on that step (as much later as it lags); `null` where none
 * was drawn to a step. An extreme that lags by parts of a step falls between steps, and is not kept.
 */
export function keptExtremes({ steps, bentTime }: Stepped, armature: CompleteArmature, settings: Pick<PuppetSettings, 'drives'>): Uint8Array | null {
  if (bentTime.bent.length === 0) return null;
  const width = armature.joints.length;
  const kept = new Uint8Array(steps.count * width);
  const drives = drivesOf(armature, settings);
  for (const { joint, toFilmS } of bentTime.bent) {
    const at = steps.filmTimeS.findIndex((timeS) => Math.abs(timeS - toFilmS) < SAME_S);
    if (at < 0) continue;
    drives.forEach(({ from, delaySteps }, p) => {
      const s = at + delaySteps;
      if (from === joint && Number.isInteger(s) && s >= 0 && s < steps.count) kept[s * width + p] = 1;
    });
  }
  return kept;
}
