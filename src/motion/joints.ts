/**
 * The performer's joints: names, order, parents, and what kind of turn each can make.
 *
 * Every list in the program that is indexed by joint uses this order; parents stand before children.
 * "Left" and "right" are the performer's own (after mirroring, if the take is mirrored).
 */
export const JOINT_NAMES = [
  'pelvis', 'spine', 'chest', 'neck', 'head',
  'leftClavicle', 'leftShoulder', 'leftElbow', 'leftWrist',
  'rightClavicle', 'rightShoulder', 'rightElbow', 'rightWrist',
  'leftHip', 'leftKnee', 'leftAnkle',
  'rightHip', 'rightKnee', 'rightAnkle',
] as const;

export type JointName = (typeof JOINT_NAMES)[number];

export const JOINT_COUNT = JOINT_NAMES.length;

/** Index of each joint in {@link JOINT_NAMES}. */
export const JOINT: Readonly<Record<JointName, number>> = Object.fromEntries(
  JOINT_NAMES.map((name, index) => [name, index]),
) as Record<JointName, number>;

/** The joint whose segment carries this one; the pelvis turns against the stage itself (`undefined`). */
export const JOINT_PARENT: Readonly<Record<JointName, JointName | undefined>> = {
  pelvis: undefined,
  spine: 'pelvis',
  chest: 'spine',
  neck: 'chest',
  head: 'neck',
  leftClavicle: 'chest',
  leftShoulder: 'leftClavicle',
  leftElbow: 'leftShoulder',
  leftWrist: 'leftElbow',
  rightClavicle: 'chest',
  rightShoulder: 'rightClavicle',
  rightElbow: 'rightShoulder',
  rightWrist: 'rightElbow',
  leftHip: 'pelvis',
  leftKnee: 'leftHip',
  leftAnkle: 'leftKnee',
  rightHip: 'pelvis',
  rightKnee: 'rightHip',
  rightAnkle: 'rightKnee',
};

/**
 * Kind of a joint of a human performer.
 * - `hinge`: one axis, the body's Z; read as flexion from straight, positive when bent.
 * - `ball`: any turn; read as a quaternion.
 * - `swivel`: a turn about the bone's own long axis (Y) only.
 */
export type JointKind = 'hinge' | 'ball' | 'swivel';

export const PERFORMER_KIND: Readonly<Record<JointName, JointKind>> = {
  pelvis: 'ball', spine: 'ball', chest: 'ball', neck: 'ball', head: 'ball',
  leftClavicle: 'ball', leftShoulder: 'ball', leftElbow: 'hinge', leftWrist: 'ball',
  rightClavicle: 'ball', rightShoulder: 'ball', rightElbow: 'hinge', rightWrist: 'ball',
  leftHip: 'ball', leftKnee: 'hinge', leftAnkle: 'ball',
  rightHip: 'ball', rightKnee: 'hinge', rightAnkle: 'ball',
};

/**
 * Sense of a hinge about the body's Z axis: +1 where flexion is a positive turn (forearm swings forward),
 * -1 where it is a negative one (shank swings back). Source: ISB axes, Wu & Cavanagh 1995.
 */
export const FLEXION_SENSE: Readonly<Partial<Record<JointName, 1 | -1>>> = {
  leftElbow: 1, rightElbow: 1, leftKnee: -1, rightKnee: -1,
};
