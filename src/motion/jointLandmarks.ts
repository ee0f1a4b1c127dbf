/**
 * Which landmarks each joint's rotation is read from: they decide its confidence and its state.
 *
 * The whole trunk leans on hips and shoulders, and everything is carried by the trunk. Counting the hips against a hand
 * would mark every joint of a person behind a counter as guessed, though the arms are in plain sight; so a joint answers
 * for the landmarks of its own segment and of the bone or line that it turns against, and no farther.
 */
import { LANDMARK, type LandmarkName } from '../pose/landmarks.ts';
import { JOINT_NAMES, type JointName } from './joints.ts';

const TRUNK: readonly LandmarkName[] = ['leftShoulder', 'rightShoulder', 'leftHip', 'rightHip'];
const HEAD: readonly LandmarkName[] = ['leftShoulder', 'rightShoulder', 'leftEar', 'rightEar', 'leftEye', 'rightEye', 'nose'];

function arm(side: 'left' | 'right'): Readonly<Partial<Record<JointName, readonly LandmarkName[]>>> {
  const bones: readonly LandmarkName[] = [`${side}Shoulder`, `${side}Elbow`, `${side}Wrist`];
  return {
    [`${side}Clavicle`]: [],
    [`${side}Shoulder`]: ['leftShoulder', 'rightShoulder', `${side}Elbow`, `${side}Wrist`],
    [`${side}Elbow`]: bones,
    [`${side}Wrist`]: [`${side}Elbow`, `${side}Wrist`, `${side}Index`, `${side}Pinky`],
  };
}

function leg(side: 'left' | 'right'): Readonly<Partial<Record<JointName, readonly LandmarkName[]>>> {
  return {
    [`${side}Hip`]: ['leftHip', 'rightHip', `${side}Knee`, `${side}Ankle`],
    [`${side}Knee`]: [`${side}Hip`, `${side}Knee`, `${side}Ankle`],
    [`${side}Ankle`]: [`${side}Knee`, `${side}Ankle`, `${side}Heel`, `${side}FootIndex`],
  };
}

const LANDMARKS_OF: Readonly<Partial<Record<JointName, readonly LandmarkName[]>>> = {
  pelvis: TRUNK, spine: TRUNK, chest: TRUNK, neck: HEAD, head: HEAD,
  ...arm('left'), ...arm('right'), ...leg('left'), ...leg('right'),
};

/** Landmark indices of each joint in the order of JOINT_NAMES; empty for a joint that these landmarks never show. */
export const JOINT_LANDMARKS: readonly (readonly number[])[] = JOINT_NAMES.map((joint) =>
  (LANDMARKS_OF[joint] ?? []).map((name) => LANDMARK[name]),
);

/** Every landmark that any number of the motion is made of; the others need no smoothing. */
export const USED_LANDMARKS: readonly number[] = [...new Set(JOINT_LANDMARKS.flat())].sort((a, b) => a - b);
