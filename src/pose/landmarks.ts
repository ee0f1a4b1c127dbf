/**
 * The 33 body landmarks of the pose model, in its order.
 *
 * Source of names and order: the model card and documentation of the pose landmark model that the
 * package `@mediapipe/pose` ships. "Left" and "right" are the performer's own.
 */
export const LANDMARK_NAMES = [
  'nose',
  'leftEyeInner', 'leftEye', 'leftEyeOuter',
  'rightEyeInner', 'rightEye', 'rightEyeOuter',
  'leftEar', 'rightEar',
  'mouthLeft', 'mouthRight',
  'leftShoulder', 'rightShoulder',
  'leftElbow', 'rightElbow',
  'leftWrist', 'rightWrist',
  'leftPinky', 'rightPinky',
  'leftIndex', 'rightIndex',
  'leftThumb', 'rightThumb',
  'leftHip', 'rightHip',
  'leftKnee', 'rightKnee',
  'leftAnkle', 'rightAnkle',
  'leftHeel', 'rightHeel',
  'leftFootIndex', 'rightFootIndex',
] as const;

export type LandmarkName = (typeof LANDMARK_NAMES)[number];

export const LANDMARK_COUNT = LANDMARK_NAMES.length;

/** Index of each landmark in the model's order, 0..32. */
export const LANDMARK: Readonly<Record<LandmarkName, number>> = Object.fromEntries(
  LANDMARK_NAMES.map((name, index) => [name, index]),
) as Record<LandmarkName, number>;

/** Pairs of landmarks to join with a line when a track is drawn over its footage. */
export const LANDMARK_BONES: readonly (readonly [LandmarkName, LandmarkName])[] = [
  ['leftShoulder', 'rightShoulder'], ['leftHip', 'rightHip'],
  ['leftShoulder', 'leftHip'], ['rightShoulder', 'rightHip'],
  ['leftShoulder', 'leftElbow'], ['leftElbow', 'leftWrist'],
  ['leftWrist', 'leftIndex'], ['leftWrist', 'leftPinky'], ['leftIndex', 'leftPinky'],
  ['rightShoulder', 'rightElbow'], ['rightElbow', 'rightWrist'],
  ['rightWrist', 'rightIndex'], ['rightWrist', 'rightPinky'], ['rightIndex', 'rightPinky'],
  ['leftHip', 'leftKnee'], ['leftKnee', 'leftAnkle'],
  ['leftAnkle', 'leftHeel'], ['leftHeel', 'leftFootIndex'], ['leftAnkle', 'leftFootIndex'],
  ['rightHip', 'rightKnee'], ['rightKnee', 'rightAnkle'],
  ['rightAnkle', 'rightHeel'], ['rightHeel', 'rightFootIndex'], ['rightAnkle', 'rightFootIndex'],
  ['leftEar', 'leftEyeOuter'], ['leftEyeInner', 'nose'], ['rightEar', 'rightEyeOuter'], ['rightEyeInner', 'nose'],
];
