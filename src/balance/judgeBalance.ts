/** Judges every step of a plan. */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { Poses } from '../timing/poses.ts';
import type { Steps } from '../timing/steps.ts';
import type { Balance } from './balance.ts';
import type { PoiseSettings } from './poiseSettings.ts';
import { unknownBalance } from './unknownBalance.ts';

/** What is judged: N steps, P joints, F feet. */
export interface BalanceSources {
  readonly armature: CompleteArmature;
  /** The exact pose with its errors, and where feet stand. */
  readonly moved: MovedPuppet;
  /** The ordered pose, which is the one that stands on the set: `rotations[N·P·4]`, `rootMm[N·3]`. */
  readonly ordered: { readonly rotations: Float64Array; readonly rootMm: Float64Array };
  /** The performer at the steps, and their size. */
  readonly poses: Poses;
  readonly legLengthM: number;
  readonly performerHeightM: number;
  /** Height that the figure is to read as, metres; `null`: as tall as the performer. */
  readonly apparentHeightM: number | null;
  readonly steps: Steps;
  readonly timeScale: number;
}

export function judgeBalance({ moved, poses }: BalanceSources, settings: PoiseSettings): Balance {
  void settings;
  return unknownBalance(poses.timesS.length, moved.feet.map(({ name }) => name));
}
