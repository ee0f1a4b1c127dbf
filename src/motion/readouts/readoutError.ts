/**
 * How far off a readout may be: the joint's own error, carried through the angle that is read.
 *
 * errorDeg speaks of small turns of a joint: of where a limb's bone points, about two axes square to it; of pelvis, spine and
 * head, about all three; of a hinge, about its own (docs/errors.md). One sigma of a readout is the root of the sum of squares of
 * what a sigma of each of these turns does to it, to first order. That makes it grow toward a zone where it can't be told.
 */
import { JOINT, type JointName, PERFORMER_KIND } from '../joints.ts';
import { JOINT_CLASS } from '../trust/errorClasses.ts';
import { fromAxisAngle, multiply, type Quat } from '../../numeric/quaternion.ts';
import type { Vec3 } from '../../numeric/vector3.ts';
import type { Readout, RotationOf } from './readout.ts';

/** Turn by which the slope is taken, radians: far above rounding, far below what bends the slope. */
const TRIED_RAD = 1e-4;
/** No angle can be off by more, degrees: half a turn. */
const MOST_DEG = 180;

const X: Vec3 = [1, 0, 0];
const Y: Vec3 = [0, 1, 0];
const Z: Vec3 = [0, 0, 1];

/** The axes of the joint's child segment about which its error is meant: the long axis of a limb's bone is not among them. */
export function errorAxes(joint: JointName): readonly Vec3[] {
  if (PERFORMER_KIND[joint] === 'hinge') return [Z];
  if (JOINT_CLASS[JOINT[joint]]!.bones.length === 0) return [X, Y, Z];
  // the foot's bone points forward
  return joint.endsWith('Ankle') ? [Y, Z] : [X, Z];
}

/**
 * One sigma of a readout at one moment, degrees.
 *
 * @param errorDeg of the readout's joint there, as in Motion
 * @returns NaN where nothing is known of it: turns of a bone about itself, what is inferred, a joint without an error
 */
export function readoutErrorDeg(readout: Readout, rotationOf: RotationOf, errorDeg: number): number {
  if (readout.isTurn || readout.from === 'inferred' || !Number.isFinite(errorDeg)) return Number.NaN;
  const { joint } = readout;
  // Joints that share one measured turn have a part of its error each; the readout is of the whole turn.
  const wholeDeg = errorDeg / JOINT_CLASS[JOINT[joint]]!.share;
  const own = rotationOf(joint);
  const at = readout.read(rotationOf).rad;
  let squares = 0;
  for (const axis of errorAxes(joint)) {
    const turned: Quat = multiply(own, fromAxisAngle(axis, TRIED_RAD));
    const by = readout.read((name) => (name === joint ? turned : rotationOf(name))).rad - at;
    // through ±180° there is no leap
    const slope = (by - 2 * Math.PI * Math.round(by / (2 * Math.PI))) / TRIED_RAD;
    squares += slope * slope;
  }
  return Math.min(MOST_DEG, wholeDeg * Math.sqrt(squares));
}
