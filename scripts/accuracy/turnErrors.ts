/**
 * Errors of joints as whole turns: the angle between the measured and the true rotation of a segment against the one that carries it.
 */
import { cross, deg, fromAxes, inverse, mul, type Quat } from '../clips/motion/rotation.ts';
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import type { TurnClass } from './measures.ts';
import { type PlacedBody, segmentsOfTruth } from './truthBody.ts';
import { SIDES, type Side, type TrunkAxes } from './segments.ts';

/** A true or measured turn of one joint, or of its twist about the bone alone. */
export interface Turn {
  readonly turnClass: TurnClass;
  readonly joint: JointName;
  readonly rotation: Quat;
}

const orientation = ({ up, right }: TrunkAxes): Quat => fromAxes(cross(up, right), up, right);

/** The part of a rotation that turns about Y, the long axis of a hanging limb. */
function twist([w, , y]: Quat): Quat {
  const size = Math.hypot(w, y);
  return size < 1e-9 ? [Number.NaN, 0, 0, 0] : [w / size, 0, y / size, 0];
}

const ofSide = (side: Side, shoulder: Quat, hip: Quat, wrist: Quat, ankle: Quat): Turn[] => [
  { turnClass: 'shoulder, whole turn', joint: `${side}Shoulder`, rotation: shoulder },
  { turnClass: 'hip, whole turn', joint: `${side}Hip`, rotation: hip },
  { turnClass: 'forearm roll', joint: `${side}Wrist`, rotation: twist(wrist) },
  { turnClass: 'wrist, whole turn', joint: `${side}Wrist`, rotation: wrist },
  { turnClass: 'ankle, whole turn', joint: `${side}Ankle`, rotation: ankle },
];

/**
 * The true turns of a frame. Shoulders turn against the chest and hips against the pelvis as landmarks show them (line of the
 * shoulders or hips, and mid-hip to mid-shoulder), because a measurement knows no other; the wrist carries the forearm's roll on both sides.
 */
export function trueTurns(body: PlacedBody): Turn[] {
  const { pelvis, chest } = segmentsOfTruth(body);
  return SIDES.flatMap((side) => {
    const against = (carrier: Quat, joint: string): Quat => mul(inverse(carrier), body(joint).rotation);
    return ofSide(side, against(orientation(chest), `${side}Shoulder`), against(orientation(pelvis), `${side}Hip`),
      against(body(`${side}Elbow`).rotation, `${side}Wrist`), against(body(`${side}Knee`).rotation, `${side}Ankle`));
  });
}

/** The measured turns of a frame, in the same order; NaN where missing. */
export function measuredTurns(motion: Motion, frame: number): Turn[] {
  const read = (joint: JointName): Quat => {
    const at = (frame * JOINT_COUNT + JOINT[joint]) * 4;
    const [w = Number.NaN, x = Number.NaN, y = Number.NaN, z = Number.NaN] = motion.rotations.subarray(at, at + 4);
    return [w, x, y, z];
  };
  // A clavicle that one camera can tell would belong to the upper arm's turn against the chest.
  return SIDES.flatMap((side) => ofSide(side, mul(read(`${side}Clavicle`), read(`${side}Shoulder`)), read(`${side}Hip`), read(`${side}Wrist`), read(`${side}Ankle`)));
}

/** Angle between two rotations, degrees, 0..180. */
export function turnBetweenDeg(a: Quat, b: Quat): number {
  const [w, x, y, z] = mul(inverse(a), b);
  return 2 * deg(Math.atan2(Math.hypot(x, y, z), Math.abs(w)));
}
