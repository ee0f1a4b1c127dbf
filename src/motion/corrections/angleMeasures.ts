/**
 * Which angle may be typed for which joint, and what it means: one number a joint, so one measure a joint.
 */
import type { JointName } from '../joints.ts';

/**
 * - `flexion` of a hinge: 0 straight, positive bent.
 * - `elevation` of an upper arm: between it and the line down the trunk, 0 hanging, 90 level, 180 overhead.
 * - `hipFlexion`: between thigh and the line down the trunk, in the plane of forward and down; positive to the front.
 * - `lean` of the trunk: between the line from mid-hip to mid-shoulder and upright, positive to the front.
 * - `turn` of the face against the trunk, positive to the performer's left; `nod` of it, positive down.
 */
export type AngleMeasure = 'flexion' | 'elevation' | 'hipFlexion' | 'lean' | 'turn' | 'nod';

export interface AngleRule {
  readonly measure: AngleMeasure;
  /** What is typed, in a person's words. */
  readonly words: string;
  readonly minDeg: number;
  readonly maxDeg: number;
}

const flexion: AngleRule = { measure: 'flexion', words: 'flexion, 0° straight', minDeg: 0, maxDeg: 165 };
const elevation: AngleRule = { measure: 'elevation', words: 'elevation, 0° hanging, 90° level', minDeg: 0, maxDeg: 180 };
const hipFlexion: AngleRule = { measure: 'hipFlexion', words: 'flexion, 0° standing, positive to the front', minDeg: -45, maxDeg: 150 };

export const ANGLE_MEASURES = {
  leftElbow: flexion, rightElbow: flexion, leftKnee: flexion, rightKnee: flexion,
  leftShoulder: elevation, rightShoulder: elevation,
  leftHip: hipFlexion, rightHip: hipFlexion,
  spine: { measure: 'lean', words: 'lean of the trunk, 0° upright, positive to the front', minDeg: -60, maxDeg: 120 },
  neck: { measure: 'turn', words: 'turn of the head, 0° ahead, positive to the performer’s left', minDeg: -100, maxDeg: 100 },
  head: { measure: 'nod', words: 'nod of the head against the trunk, 0° straight ahead, positive down', minDeg: -70, maxDeg: 70 },
} as const satisfies Readonly<Partial<Record<JointName, AngleRule>>>;

export type CorrectableJoint = keyof typeof ANGLE_MEASURES;

export const CORRECTABLE_JOINTS = Object.keys(ANGLE_MEASURES) as readonly CorrectableJoint[];
