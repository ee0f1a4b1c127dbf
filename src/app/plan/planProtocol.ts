/**
 * What the page and the worker of the plan say to each other. One worker makes all plans of a page: it keeps the planner's
 * stages, and it keeps track, body, armature and what is set for the puppet, so that each crosses over once and a change of a setting sends settings only.
 */
import type { CorrectionAsk, CorrectionResult } from '../../balance/correct/solveCorrection.ts';
import type { PoiseSettings } from '../../balance/poiseSettings.ts';
import type { ErrorData } from '../../errors.ts';
import type { JointName } from '../../motion/joints.ts';
import type { Readings } from '../../motion/readouts/readings.ts';
import type { CutoffSuggestion } from '../../motion/suggestCutoff.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { FrameAngles } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import type { Track } from '../../pose/track.ts';
import type { Armature } from '../../puppet/armature.ts';
import type { PuppetSettings } from '../../puppet/puppetSettings.ts';
import type { TimingSettings } from '../../timing/timingSettings.ts';

/** What a plan is made from besides the settings: large, and seldom new. */
export interface PlanSources {
  readonly track: Track;
  readonly body: FittedBody | null;
  readonly armature: Armature;
  /** How the puppet follows, pins, hand-set curves, readings. */
  readonly puppet: PuppetSettings;
  /** Marks, holds, pauses. */
  readonly timing: TimingSettings;
  /** What touches, is tied, is carried; corrections. */
  readonly poise: PoiseSettings;
}

export interface ToPlanWorker {
  /** Counts up; the answer carries it. */
  readonly number: number;
  readonly settings: PlanSettings;
  /** The sources that are others than in the message before. The first message carries all of them. */
  readonly news: Partial<PlanSources>;
  /** A correction of the balance that is wanted instead of the plan. */
  readonly ask?: CorrectionAsk;
  /** A joint of the performer whose readouts at the plan's steps are wanted instead of the plan. */
  readonly read?: JointName;
}

export type FromPlanWorker =
  /** `frames` is `null` where the curves are those of the answer before. */
  | { readonly kind: 'planned'; readonly number: number; readonly plan: Plan; readonly frames: FrameAngles | null; readonly cutoff: CutoffSuggestion }
  | { readonly kind: 'corrected'; readonly number: number; readonly result: CorrectionResult }
  | { readonly kind: 'read'; readonly number: number; readonly readings: Readings }
  | { readonly kind: 'failed'; readonly number: number; readonly error: ErrorData };
