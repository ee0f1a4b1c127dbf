/**
 * How far off a readout may be: the joint's own errors, carried through the angle that is read.
 *
 * errorDeg speaks of small turns of a joint: of where a limb's bone points, about two axes square to it; of pelvis, spine and
 * head, about all three; of a hinge, about its own. turnErrorDeg speaks of the turn about a limb's own bone (docs/errors.md). One sigma of
 * a readout is the root of the sum of squares of what a sigma of each of these turns does to it, to first order. That makes it grow toward a
 * zone where it can't be told.
 */
import { JOINT, type JointName, PERFORMER_KIND } from '../joints.ts';
import { JOINT_CLASS } from '../trust/errorClasses.ts';
import { fromAxisAngle, multiply, type Quat } from '../../numeric/quaternion.ts';
import { dot, type Vec3 } from '../../numeric/vector3.ts';
import type { Readout, RotationOf } from './readout.ts';

/** Turn by which the slope is taken, radians: far above rounding, far below what bends the slope. */
const TRIED_RAD = 1e-4;
/** No angle can be off by more, degrees: half a turn. */
const MOST_DEG = 180;

const X: Vec3 = [1, 0, 0];
const Y: Vec3 = [0, 1, 0];
const Z: Vec3 = [0, 0, 1];

/** The axes of the joint's child segment about which errorDeg is meant: the long axis of a limb's bone is not among them. */
export function errorAxes(joint: JointName): readonly Vec3[] {
  if (PERFORMER_KIND[joint] === 'hinge') return [Z];
  const { bone } = JOINT_CLASS[JOINT[joint]]!;
  return [X, Y, Z].filter((axis) => bone === null || dot(axis, bone) === 0);
}

/** errorDeg of a joint as a whole: joints that share one measured turn have a part of its error each. */
export function wholeErrorDeg(joint: JointName, errorDeg: number): number {
  return errorDeg / JOINT_CLASS[JOINT[joint]]!.share;
}

/** What is known of the errors of a readout's joint at a moment, as in Motion. */
export interface JointErrors {
  readonly errorDeg: number;
  readonly turnErrorDeg: number;
}

/**
 * One sigma of a readout at one moment, degrees.
 *
 * @returns NaN where nothing is known of it: what is inferred, a joint without an error
 */
export function readoutErrorDeg(readout: Readout, rotationOf: RotationOf, { errorDeg, turnErrorDeg }: JointErrors): number {
  if (readout.from === 'inferred' || !Number.isFinite(errorDeg)) return Number.NaN;
  const { joint } = readout;
  const own = rotationOf(joint);
  const at = readout.read(rotationOf).rad;
  const slope = (axis: Vec3): number => {
    const turned: Quat = multiply(own, fromAxisAngle(axis, TRIED_RAD));
    const by = readout.read((name) => (name === joint ? turned : rotationOf(name))).rad - at;
    // through ±180° there is no leap
    return (by - 2 * Math.PI * Math.round(by / (2 * Math.PI))) / TRIED_RAD;
  };
  const wholeDeg = wholeErrorDeg(joint, errorDeg);
  let squares = 0;
  for (const axis of errorAxes(joint)) squares += (slope(axis) * wholeDeg) ** 2;
  const { bone } = JOINT_CLASS[JOINT[joint]]!;
  if (bone !== null) squares += (slope(bone) * turnErrorDeg) ** 2;
  return Math.min(MOST_DEG, Math.sqrt(squares));
}
