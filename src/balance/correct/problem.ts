/** All that the demands on a change are read from; made once for an ask. */
import { limbOf } from '../../puppet/limb.ts';
import { StepChanger } from './changedStep.ts';
import type { CorrectionSources } from './correctionShapes.ts';
import type { Amount } from './means.ts';
import { StepReader } from './stepReader.ts';
import { largestSteps, stepTurnsOf } from './stepTurns.ts';

export interface Problem extends Pick<CorrectionSources, 'armature' | 'moved' | 'balance'> {
  readonly amounts: readonly Amount[];
  readonly changer: StepChanger;
  readonly reader: StepReader;
  readonly lastStep: number;
  readonly legMm: number;
  /** Joints of the leg above each foot, in the order of the puppet's feet. */
  readonly legs: readonly (readonly number[])[];
  /** `[N·P]` turns from the step before, degrees; `[P]` the largest of each joint. */
  readonly stepTurns: Float64Array;
  readonly largest: Float64Array;
}

export function problemOf({ armature, moved, balance, weights, sourceTimeS }: CorrectionSources, amounts: readonly Amount[]): Problem {
  const changer = new StepChanger(armature, moved, weights, sourceTimeS);
  const stepTurns = stepTurnsOf(moved, armature.joints.length);
  return {
    armature, moved, balance, amounts, changer, reader: new StepReader(changer, amounts, balance), lastStep: sourceTimeS.length - 1,
    legMm: Math.max(1, armature.rootHeightMm), legs: moved.feet.map(({ bone }) => limbOf(armature, bone).all), stepTurns, largest: largestSteps(stepTurns, armature),
  };
}
