/** What a correction is asked for with, what it is made from, what comes out: shapes only. */
import type { CompleteArmature } from '../../puppet/complete.ts';
import type { MovedPuppet } from '../../puppet/movePuppet.ts';
import type { Balance } from '../balance.ts';
import type { PoiseCorrection } from '../poiseSettings.ts';
import type { Weights } from '../puppetMass.ts';
import type { CannotHold } from './cannotHold.ts';
import type { Means } from './means.ts';

export interface CorrectionAsk {
  readonly id: string;
  /** From 0, both included. */
  readonly fromStep: number;
  readonly toStep: number;
  readonly marginMm: number;
  readonly means: readonly Means[];
}

/** What a plan with a correction in it comes to. */
export interface Trial {
  readonly balance: Balance;
  readonly moved: MovedPuppet;
}

export interface CorrectionSources {
  readonly armature: CompleteArmature;
  readonly moved: MovedPuppet;
  readonly balance: Balance;
  readonly weights: Weights;
  /** `[N]` container seconds of the steps. */
  readonly sourceTimeS: Float64Array;
  /** The plan with a correction added to those that are applied. */
  readonly trial: (correction: PoiseCorrection) => Trial;
}

export type CorrectionResult =
  | {
    readonly kind: 'found';
    readonly correction: PoiseCorrection;
    /** `[N]` margins of standing before and after, mm. */
    readonly beforeMm: Float64Array;
    readonly afterMm: Float64Array;
    /** Sum of the joints' turns at the worst step of the span, degrees. */
    readonly turnDeg: number;
  }
  | ({ readonly kind: 'cannot' } & CannotHold)
  | { readonly kind: 'nothing'; readonly sentence: string };
