/**
 * The figure that is fitted: its bones, its joints, and where each unknown stands in a frame's block and in the border.
 *
 * Frame of reference: the first camera's, right-handed: x to the right of the picture, y down, z away from the lens; metres.
 *
 * A figure hangs together like this (h, s, a are vectors, d unit directions, L lengths of the whole take):
 * hips = root ± h; mid-shoulder = root + s; shoulders = mid-shoulder ± a; then child = parent + L·d down each limb.
 */
import { LANDMARK } from '../../pose/landmarks.ts';

/** The eight limb bones; a limb is two neighbours (0·1, 2·3, 4·5, 6·7), the upper one first. */
export const BONE = {
  leftUpperArm: 0, leftForearm: 1, rightUpperArm: 2, rightForearm: 3,
  leftThigh: 4, leftShank: 5, rightThigh: 6, rightShank: 7,
} as const;
export const BONE_COUNT = 8;
/** Limbs in the order left arm, right arm, left leg, right leg. */
export const LIMB_COUNT = 4;
export const LIMB_NAMES = ['leftArm', 'rightArm', 'leftLeg', 'rightLeg'] as const;
export type LimbName = (typeof LIMB_NAMES)[number];

/** Length unknown that each bone uses: left and right share theirs. */
export const LENGTH_OF_BONE: readonly number[] = [0, 1, 0, 1, 2, 3, 2, 3];

/** The twelve joints of the figure that have a landmark, and that landmark. */
export const FIGURE_LANDMARKS: readonly number[] = [
  LANDMARK.leftShoulder, LANDMARK.rightShoulder, LANDMARK.leftElbow, LANDMARK.rightElbow,
  LANDMARK.leftWrist, LANDMARK.rightWrist, LANDMARK.leftHip, LANDMARK.rightHip,
  LANDMARK.leftKnee, LANDMARK.rightKnee, LANDMARK.leftAnkle, LANDMARK.rightAnkle,
];
export const POINT = {
  leftShoulder: 0, rightShoulder: 1, leftElbow: 2, rightElbow: 3, leftWrist: 4, rightWrist: 5,
  leftHip: 6, rightHip: 7, leftKnee: 8, rightKnee: 9, leftAnkle: 10, rightAnkle: 11,
} as const;
export const POINT_COUNT = 12;

/** Joints at both ends of each bone, as indices of {@link POINT}. */
export const BONE_START: readonly number[] = [0, 2, 1, 3, 6, 8, 7, 9];
export const BONE_END: readonly number[] = [2, 4, 3, 5, 8, 10, 9, 11];

/** How a joint is reached from the root: sign of the hip half-axis, whether the spine is in it, sign of the shoulder half-axis, bones. */
export interface Reach {
  readonly hip: number;
  readonly spine: number;
  readonly shoulder: number;
  readonly bones: readonly number[];
}
const arm = (sign: number, bones: readonly number[]): Reach => ({ hip: 0, spine: 1, shoulder: sign, bones });
const leg = (sign: number, bones: readonly number[]): Reach => ({ hip: sign, spine: 0, shoulder: 0, bones });
export const REACH: readonly Reach[] = [
  arm(1, []), arm(-1, []), arm(1, [0]), arm(-1, [2]), arm(1, [0, 1]), arm(-1, [2, 3]),
  leg(1, []), leg(-1, []), leg(1, [4]), leg(-1, [6]), leg(1, [4, 5]), leg(-1, [6, 7]),
];

/** Unknowns of a frame: root 3, hip half-axis 3, spine 3, shoulder half-axis 3, then 2 in the tangent plane of each direction. */
export const ROOT_AT = 0;
export const HIP_AT = 3;
export const SPINE_AT = 6;
export const SHOULDER_AT = 9;
export const DIRECTION_AT = 12;
export const FRAME_SIZE = DIRECTION_AT + 2 * BONE_COUNT;

/** Unknowns of the take (the border): 4 log lengths, 3 trunk lengths in metres, pitch, roll, floor; then 24 for each camera. */
export const LOG_LENGTH_AT = 0;
export const TRUNK_LENGTH_AT = 4;
export const PITCH_AT = 7;
export const ROLL_AT = 8;
export const FLOOR_AT = 9;
export const CAMERA_AT = 10;
/** Vectors whose depth the model tells: the 8 bones, then hip half-axis, spine, shoulder half-axis. */
export const DEPTH_VECTORS = BONE_COUNT + 3;
export const CAMERA_SIZE = 2 * DEPTH_VECTORS + 2;

export const globalCount = (cameras: number): number => CAMERA_AT + CAMERA_SIZE * cameras;
export const depthGainAt = (camera: number, vector: number): number => CAMERA_AT + CAMERA_SIZE * camera + vector;
export const depthOffsetAt = (camera: number, vector: number): number => CAMERA_AT + CAMERA_SIZE * camera + DEPTH_VECTORS + vector;
export const elbowOffsetAt = (camera: number): number => CAMERA_AT + CAMERA_SIZE * camera + 2 * DEPTH_VECTORS;
export const elbowGainAt = (camera: number): number => elbowOffsetAt(camera) + 1;
