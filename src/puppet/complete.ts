/**
 * The armature with nothing left open, as all numbers are made from it: shapes only. Made by `completeArmature.ts`.
 */
import type { JointName } from '../motion/joints.ts';
import type { PuppetKind, Range, Sole, Triple } from './armature.ts';

export interface CompleteBone {
  readonly name: string;
  readonly lengthMm: number;
  /** Unit vector. */
  readonly along: Triple;
  readonly massG: number;
  readonly massAt: number;
  readonly radiusMm: number;
  readonly sole: Sole | null;
  readonly tieDown: boolean;
  readonly notes: string;
}

export interface CompleteScrew {
  readonly pitchMm: number;
  readonly leverMm: number;
  readonly starts: number;
  readonly squareAtDeg: number;
  readonly smallestTurns: number;
}

export interface CompleteJoint {
  readonly name: string;
  /** Index of the carrying bone (and of that bone's joint); -1 for the root. */
  readonly parentIndex: number;
  readonly parent: string | null;
  readonly child: string;
  readonly at: number;
  readonly offsetMm: Triple;
  readonly kind: PuppetKind;
  /** Unit vector; for balls and wires the bone's own direction (not used for their turns). */
  readonly axis: Triple;
  /** `null` where nothing stops it. */
  readonly limitsDeg: {
    readonly axis: Range | null; readonly forward: Range | null; readonly up: Range | null; readonly right: Range | null;
  };
  readonly smallestDeg: number;
  readonly slackDeg: number;
  readonly screw: CompleteScrew | null;
  readonly notes: string;
}

export interface CompleteDrive {
  readonly joint: string;
  readonly from: JointName | null;
  readonly weight: number;
  readonly gain: number;
  readonly offsetDeg: { readonly axis: number; readonly forward: number; readonly up: number; readonly right: number };
  readonly delaySteps: number;
}

/**
 * P bones and P joints; `joints[p]` turns `bones[p]`; parents stand before children.
 */
export interface CompleteArmature {
  readonly name: string;
  readonly notes: string;
  readonly bones: readonly CompleteBone[];
  readonly joints: readonly CompleteJoint[];
  /** One for every joint, in the same order. */
  readonly drives: readonly CompleteDrive[];
  readonly totalMassG: number;
  /** Start of the root bone above the floor at rest, mm. */
  readonly rootHeightMm: number;
  /** Highest point above the floor at rest, mm. */
  readonly heightMm: number;
}
