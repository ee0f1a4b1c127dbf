/**
 * The angles that are compared, each a pure function of segment directions, the same for truth and measurement.
 */
import { cross, deg, dot, scale, type Vec3 } from '../clips/motion/rotation.ts';
import { angleBetweenRad, type Segments, SIDES, type TrunkAxes } from './segments.ts';

/** What is reported together: left and right of one kind. */
export const JOINT_CLASSES = ['elbow', 'knee', 'shoulder elevation', 'hip flexion', 'trunk lean', 'head nod', 'head turn'] as const;
export type JointClass = (typeof JOINT_CLASSES)[number];

export const ANGLE_NAMES = [
  'leftElbow', 'rightElbow', 'leftKnee', 'rightKnee', 'leftShoulder', 'rightShoulder', 'leftHip', 'rightHip',
  'trunk', 'headNod', 'headTurn',
] as const;
export type AngleName = (typeof ANGLE_NAMES)[number];

export const CLASS_OF: Readonly<Record<AngleName, JointClass>> = {
  leftElbow: 'elbow', rightElbow: 'elbow', leftKnee: 'knee', rightKnee: 'knee',
  leftShoulder: 'shoulder elevation', rightShoulder: 'shoulder elevation',
  leftHip: 'hip flexion', rightHip: 'hip flexion',
  trunk: 'trunk lean', headNod: 'head nod', headTurn: 'head turn',
};

const UP: Vec3 = [0, 1, 0];

/** Part of `v` along each axis of a trunk part. */
function inAxes(v: Vec3, { up, right }: TrunkAxes): { forward: number; up: number; right: number } {
  // Axes X forward, Y up, Z right: forward = up × right.
  return { forward: dot(v, cross(up, right)), up: dot(v, up), right: dot(v, right) };
}

/**
 * Degrees.
 * - elbow, knee: between the two bones; 0 = straight, always ≥ 0.
 * - shoulder elevation: between the upper arm and the chest's down; 0 = hanging along the trunk, 90 = level, always ≥ 0.
 * - hip flexion: turn of the thigh against the pelvis's down in the body's side view, forward positive; spreading does not count.
 * - trunk lean: between the chest's up and the plumb line, always ≥ 0.
 * - head nod: how far the face points above the chest's forward level, up positive.
 * - head turn: direction of the face about the chest's up, to the performer's left positive.
 */
export function bodyAngles(body: Segments): Record<AngleName, number> {
  const angles = {} as Record<AngleName, number>;
  for (const side of SIDES) {
    const limb = body[side];
    angles[`${side}Elbow`] = deg(angleBetweenRad(limb.upperArm, limb.forearm));
    angles[`${side}Knee`] = deg(angleBetweenRad(limb.thigh, limb.shank));
    angles[`${side}Shoulder`] = deg(angleBetweenRad(limb.upperArm, scale(body.chest.up, -1)));
    const thigh = inAxes(limb.thigh, body.pelvis);
    angles[`${side}Hip`] = deg(Math.atan2(thigh.forward, -thigh.up));
  }
  angles.trunk = deg(angleBetweenRad(body.chest.up, UP));
  const face = inAxes(body.face, body.chest);
  angles.headNod = deg(Math.atan2(face.up, Math.hypot(face.forward, face.right)));
  angles.headTurn = deg(Math.atan2(-face.right, face.forward));
  return angles;
}
