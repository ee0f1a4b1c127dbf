// The pose in which the figure is modelled, and the way from a segment's own axes into it.
import type { Body } from '../motion/body.ts';
import { aboutX, add, turn, type Vec3 } from '../motion/rotation.ts';
import { placeJoints, restRotations, signOf, SIDES, type Joint, type Placed, type Pose } from '../motion/skeleton.ts';

/** Arms are modelled half raised, so that armpits neither stretch nor fold much in use. */
const BIND_ARM_DEG = 45;

export interface Rig {
  readonly body: Body;
  readonly bind: Readonly<Record<Joint, Placed>>;
  /** A point given in a segment's own axes (rest: X forward, Y up, Z right; origin at its joint), in the bind pose. */
  readonly place: (joint: Joint, local: Vec3) => Vec3;
}

/** Upright, feet flat, arms half raised sideways. */
export function bindPose(body: Body): Pose {
  const rotations = restRotations();
  for (const side of SIDES) rotations[`${side}Shoulder`] = aboutX(-signOf(side) * BIND_ARM_DEG);
  return { root: [0, body.hipHeight, 0], rotations };
}

/** The rig of one body. */
export function rigOf(body: Body): Rig {
  const bind = placeJoints(body, bindPose(body));
  return {
    body,
    bind,
    place: (joint, local) => add(bind[joint].position, turn(bind[joint].rotation, local)),
  };
}
