/** Small moves that keep pauses alive. */
import type { AliveSettings } from '../../timing/timingSettings.ts';
import type { PauseOnSteps } from '../../timing/moments/moments.ts';
import type { Poses } from '../../timing/poses.ts';
import type { Steps } from '../../timing/steps.ts';
import type { Added } from '../added.ts';
import type { Armature } from '../armature.ts';
import type { PuppetSettings } from '../puppetSettings.ts';

export interface AliveSources {
  /** Of the whole body, and of each limb. */
  readonly pauses: readonly PauseOnSteps[];
  /** The performer at the steps. */
  readonly poses: Poses;
  readonly steps: Steps;
  readonly armature: Armature;
  readonly drives: PuppetSettings['drives'];
}

/** What is added to the plan's pauses; `null` where nothing is. */
export function aliveTurns(sources: AliveSources, settings: AliveSettings): Added | null {
  void sources;
  void settings;
  return null;
}
