/**
 * The measured body of one frame: directions of the segments as the motion's rotations have them.
 */
import { mul, turn, type Quat, type Vec3 } from '../clips/motion/rotation.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, JOINT_PARENT, type JointName } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import type { LimbSegments, Segments, Side } from './segments.ts';

/** In the rest pose every limb hangs down its segment's own -Y. */
const DOWN: Vec3 = [0, -1, 0];

/** Orientation of each joint's segment in the stage, in the order of JOINT_NAMES. Missing joints and all they carry hold NaN. */
function orientations(motion: Motion, frame: number): Quat[] {
  const placed: Quat[] = [];
  JOINT_NAMES.forEach((name, j) => {
    const at = (frame * JOINT_COUNT + j) * 4;
    const own: Quat = [motion.rotations[at]!, motion.rotations[at + 1]!, motion.rotations[at + 2]!, motion.rotations[at + 3]!];
    const parent = JOINT_PARENT[name];
    placed.push(parent === undefined ? own : mul(placed[JOINT[parent]]!, own));
  });
  return placed;
}

/** Directions of the measured segments, stage axes (Y up). */
export function segmentsOfMotion(motion: Motion, frame: number): Segments {
  const placed = orientations(motion, frame);
  const point = (name: JointName, axis: Vec3): Vec3 => turn(placed[JOINT[name]]!, axis);
  const limb = (side: Side): LimbSegments => ({
    upperArm: point(`${side}Shoulder`, DOWN),
    forearm: point(`${side}Elbow`, DOWN),
    thigh: point(`${side}Hip`, DOWN),
    shank: point(`${side}Knee`, DOWN),
  });
  return {
    pelvis: { up: point('pelvis', [0, 1, 0]), right: point('pelvis', [0, 0, 1]) },
    chest: { up: point('chest', [0, 1, 0]), right: point('chest', [0, 0, 1]) },
    face: point('head', [1, 0, 0]),
    left: limb('left'),
    right: limb('right'),
  };
}
