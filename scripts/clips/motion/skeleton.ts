// The tree of joints, and where each joint is in the world for given rotations.
import type { Body } from './body.ts';
import { add, mul, turn, ZERO, IDENTITY, type Quat, type Vec3 } from './rotation.ts';

/** Parents come before children. */
export const JOINTS = [
  'pelvis', 'spine', 'chest', 'neck', 'head',
  'leftClavicle', 'leftShoulder', 'leftElbow', 'leftWrist',
  'rightClavicle', 'rightShoulder', 'rightElbow', 'rightWrist',
  'leftHip', 'leftKnee', 'leftAnkle', 'leftToes',
  'rightHip', 'rightKnee', 'rightAnkle', 'rightToes',
] as const;
export type Joint = (typeof JOINTS)[number];
export type Side = 'left' | 'right';
export const SIDES: readonly Side[] = ['left', 'right'];

/** +1 on the performer's right (where Z points), -1 on the left. */
export const signOf = (side: Side): 1 | -1 => (side === 'right' ? 1 : -1);

export const PARENT: Readonly<Record<Joint, Joint | undefined>> = {
  pelvis: undefined, spine: 'pelvis', chest: 'spine', neck: 'chest', head: 'neck',
  leftClavicle: 'chest', leftShoulder: 'leftClavicle', leftElbow: 'leftShoulder', leftWrist: 'leftElbow',
  rightClavicle: 'chest', rightShoulder: 'rightClavicle', rightElbow: 'rightShoulder', rightWrist: 'rightElbow',
  leftHip: 'pelvis', leftKnee: 'leftHip', leftAnkle: 'leftKnee', leftToes: 'leftAnkle',
  rightHip: 'pelvis', rightKnee: 'rightHip', rightAnkle: 'rightKnee', rightToes: 'rightAnkle',
};

/** One frame: rotation of each joint's segment relative to its parent's (pelvis: to the world), and mid-hip in metres. */
export interface Pose {
  readonly root: Vec3;
  readonly rotations: Readonly<Record<Joint, Quat>>;
}

/** A segment's frame in the world. */
export interface Placed {
  readonly position: Vec3;
  readonly rotation: Quat;
}

/** Offset of each joint from its parent's joint in the parent's frame, metres; pelvis: from the floor. */
export function offsetsOf(body: Body): Readonly<Record<Joint, Vec3>> {
  const b = body;
  const arm = (s: 1 | -1): readonly Vec3[] => [
    [0, b.clavicleHeight - b.chestHeight, s * b.clavicleHalf],
    [0, b.shoulderHeight - b.clavicleHeight, s * (b.shoulderHalf - b.clavicleHalf)],
    [0, -b.upperArm, 0],
    [0, -b.forearm, 0],
  ];
  const leg = (s: 1 | -1): readonly Vec3[] => [
    [0, 0, s * b.hipHalf],
    [0, b.kneeHeight - b.hipHeight, 0],
    [0, b.ankleHeight - b.kneeHeight, 0],
    [b.ankleToBall, 0.02 - b.ankleHeight, 0],
  ];
  const at = (list: readonly Vec3[], i: number): Vec3 => list[i] ?? ZERO;
  const [la, ra, ll, rl] = [arm(-1), arm(1), leg(-1), leg(1)];
  return {
    pelvis: [0, b.hipHeight, 0],
    spine: [0, b.spineHeight - b.hipHeight, 0],
    chest: [0, b.chestHeight - b.spineHeight, 0],
    neck: [0, b.neckHeight - b.chestHeight, 0],
    head: [0, b.headHeight - b.neckHeight, 0],
    leftClavicle: at(la, 0), leftShoulder: at(la, 1), leftElbow: at(la, 2), leftWrist: at(la, 3),
    rightClavicle: at(ra, 0), rightShoulder: at(ra, 1), rightElbow: at(ra, 2), rightWrist: at(ra, 3),
    leftHip: at(ll, 0), leftKnee: at(ll, 1), leftAnkle: at(ll, 2), leftToes: at(ll, 3),
    rightHip: at(rl, 0), rightKnee: at(rl, 1), rightAnkle: at(rl, 2), rightToes: at(rl, 3),
  };
}

/** All rotations the identity: upright, arms hanging. */
export function restRotations(): Record<Joint, Quat> {
  return Object.fromEntries(JOINTS.map((j) => [j, IDENTITY])) as Record<Joint, Quat>;
}

/** Forward kinematics: every segment's frame in the world, position in metres. */
export function placeJoints(body: Body, pose: Pose): Record<Joint, Placed> {
  const offsets = offsetsOf(body);
  const placed: Partial<Record<Joint, Placed>> = {};
  for (const joint of JOINTS) {
    const parentName = PARENT[joint];
    const parent = parentName === undefined ? undefined : placed[parentName];
    placed[joint] = parent === undefined
      ? { position: pose.root, rotation: pose.rotations[joint] }
      : {
          position: add(parent.position, turn(parent.rotation, offsets[joint])),
          rotation: mul(parent.rotation, pose.rotations[joint]),
        };
  }
  return placed as Record<Joint, Placed>;
}
