/** How far the joints of a limb turn in a move, and wander in a pause. */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import type { Motion } from '../../motion/motion.ts';
import { angleOf, conjugate, multiply, readQuat } from '../../numeric/quaternion.ts';
import { LIMB_JOINTS, type Limb } from './moments.ts';

const DEG_PER_RAD = 180 / Math.PI;

/** Turn from the first to the last frame of the joint that turns farthest, degrees. */
export function sizeOf({ rotations, observable }: Motion, limb: Limb, from: number, to: number): number {
  let most = 0;
  for (const name of LIMB_JOINTS[limb]) {
    const j = JOINT[name];
    if (observable[j] !== 1) continue;
    const first = readQuat(rotations, from * JOINT_COUNT + j);
    // the farthest it gets from where it began, so that a there-and-back is no nothing
    for (let t = from + 1; t <= to; t++) most = Math.max(most, angleOf(multiply(conjugate(first), readQuat(rotations, t * JOINT_COUNT + j))));
  }
  return most * DEG_PER_RAD;
}

/** Largest turn of a joint of the limb away from where it was at the beginning of a pause, degrees. */
export function driftOf({ timesS, rotations, observable }: Motion, limb: Limb, fromS: number, toS: number): number {
  let most = 0;
  for (const name of LIMB_JOINTS[limb]) {
    const j = JOINT[name];
    if (observable[j] !== 1) continue;
    let first = -1;
    for (let t = 0; t < timesS.length && timesS[t]! <= toS; t++) {
      if (timesS[t]! < fromS) continue;
      if (first < 0) first = t;
      const turned = angleOf(multiply(conjugate(readQuat(rotations, first * JOINT_COUNT + j)), readQuat(rotations, t * JOINT_COUNT + j)));
      if (turned > most) most = turned;
    }
  }
  return most * DEG_PER_RAD;
}
