/**
 * What happens when: moves and pauses of each limb and of the whole body.
 *
 * A limb is a group of the performer's joints with one end that is watched. Times are container seconds, so that moments
 * stay with the performance when it is retimed; speeds are of the performer's own time.
 */
import type { JointName } from '../../motion/joints.ts';

export const LIMBS = ['head', 'shoulders', 'hips', 'leftArm', 'rightArm', 'leftLeg', 'rightLeg'] as const;
export type Limb = (typeof LIMBS)[number];
/** Whose moments these are: a limb's, or the whole body's. */
export type MomentsOf = Limb | 'body';

/** Joints of each limb, from the trunk outward. The shoulders go with the chest, whose line they are. */
export const LIMB_JOINTS: Readonly<Record<Limb, readonly JointName[]>> = {
  head: ['neck', 'head'],
  shoulders: ['spine', 'chest'],
  hips: ['pelvis'],
  leftArm: ['leftShoulder', 'leftElbow', 'leftWrist'],
  rightArm: ['rightShoulder', 'rightElbow', 'rightWrist'],
  leftLeg: ['leftHip', 'leftKnee', 'leftAnkle'],
  rightLeg: ['rightHip', 'rightKnee', 'rightAnkle'],
};

/** Joints of a limb; of the body all. */
export function jointsOf(of: MomentsOf): readonly JointName[] {
  return of === 'body' ? LIMBS.flatMap((limb) => LIMB_JOINTS[limb]) : LIMB_JOINTS[of];
}

export interface Move {
  readonly of: MomentsOf;
  readonly startS: number;
  /** Where it is fastest. */
  readonly peakS: number;
  readonly endS: number;
  /** Way of the fastest-turning joint of the limb from start to end, degrees. */
  readonly sizeDeg: number;
  readonly peakDegPerS: number;
  /** Share of the move spent speeding up, and slowing down; see the function that makes it for the yardstick. */
  readonly easeIn: number;
  readonly easeOut: number;
}

export interface Pause {
  readonly of: MomentsOf;
  readonly fromS: number;
  readonly toS: number;
  /** How far the limb wandered while it paused, degrees. */
  readonly driftDeg: number;
}

export interface Moments {
  /** By limb in the order of LIMBS, then the body; each rising in time. */
  readonly moves: readonly Move[];
  readonly pauses: readonly Pause[];
}

/** A move on the steps of the plan (from 0; fractions where it begins between two). */
export interface MoveOnSteps extends Move {
  readonly startStep: number;
  readonly peakStep: number;
  readonly endStep: number;
}

/** A pause on the steps of the plan: the first and the last step within it. */
export interface PauseOnSteps extends Pause {
  readonly fromStep: number;
  readonly toStep: number;
}

export interface MomentsOnSteps {
  readonly moves: readonly MoveOnSteps[];
  readonly pauses: readonly PauseOnSteps[];
}
