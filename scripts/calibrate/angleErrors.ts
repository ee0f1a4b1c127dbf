/**
 * How far the measured joints of a frame are off, as angles about two or three axes, by class of joint.
 *
 * - A hinge: difference of the flexions (one number).
 * - Upper arm, thigh, hand, foot: where it points against the segment that carries it; the turn that takes the measured
 *   direction to the true one, about two axes square to it (two numbers: forward and sideways as far as they apply). The
 *   turn about the bone itself is told apart.
 * - Pelvis against the stage, chest against pelvis, head against chest: the whole turn between measured and true, about
 *   the three axes of the segment.
 *
 * Pelvis and chest are on both sides what landmarks show of them (line of the hips or shoulders, and mid-hip to mid-shoulder).
 */
import { ERROR_CLASSES, type ErrorClass } from '../../src/motion/trust/errorClasses.ts';
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import { angleOf, conjugate, fromAxisAngle, fromBasis, multiply, readQuat, rotate, rotationVector, shortestArc, twistAngle, type Quat } from '../../src/numeric/quaternion.ts';
import { cross, dot, reject, unit, type Vec3 } from '../../src/numeric/vector3.ts';
import { placeTruth, segmentsOfTruth } from '../accuracy/truthBody.ts';
import { SIDES, type TrunkAxes } from '../accuracy/segments.ts';
import type { Truth } from '../accuracy/truthFile.ts';

const DEG = 180 / Math.PI;
const DOWN: Vec3 = [0, -1, 0];
const FORWARD: Vec3 = [1, 0, 0];
const Z: Vec3 = [0, 0, 1];

export interface AngleErrors {
  readonly errorClass: number;
  /** The joint whose predictors foretell it. */
  readonly joint: number;
  /** Signed, degrees. */
  readonly deg: readonly number[];
  /** Turn about the bone, degrees; NaN where there is none. */
  readonly turnDeg: number;
  /** True angle that the class is known by (flexion; swing of a limb), degrees. */
  readonly trueDeg: number;
}

function axes({ up, right }: TrunkAxes): Quat {
  return fromBasis(cross(up, right), up, right);
}

/** World of the truth → stage: the stage's X points from the performer to the camera along the floor. */
function toStage(truth: Truth): Quat {
  const { positionM, targetM } = truth.camera;
  const heading = Math.atan2(-(positionM[2] - targetM[2]), positionM[0] - targetM[0]);
  return fromAxisAngle([0, 1, 0], -heading);
}

function whole(measured: Quat, truth: Quat): number[] {
  return rotationVector(multiply(conjugate(measured), truth)).map((rad) => rad * DEG);
}

/** The turn from one direction to the other, about two axes square to the first. */
function pointing(measured: Vec3, truth: Vec3): number[] {
  const w = rotationVector(shortestArc(measured, truth));
  const a = unit(reject(Z, measured)) ?? FORWARD;
  return [dot(w, a) * DEG, dot(w, cross(measured, a)) * DEG];
}

/** What is left of the turn about the bone once the directions agree, degrees. */
function aboutBone(measured: Quat, truth: Quat, bone: Vec3): number {
  const arc = shortestArc(rotate(measured, bone), rotate(truth, bone));
  return rotationAbout(multiply(conjugate(multiply(arc, measured)), truth), bone);
}

function rotationAbout(q: Quat, bone: Vec3): number {
  return twistAngle(q, bone[1] === 0 ? 1 : 2) * DEG;
}

const CLASS = Object.fromEntries(ERROR_CLASSES.map((name, k) => [name, k])) as Record<ErrorClass, number>;

/** All joints of one frame that has a pose. */
export function angleErrors(truth: Truth, motion: Motion, frame: number): AngleErrors[] {
  const measured = (joint: JointName): Quat => readQuat(motion.rotations, frame * JOINT_COUNT + JOINT[joint]);
  const placed = placeTruth(truth, frame);
  const segments = segmentsOfTruth(placed);
  const pelvis = axes(segments.pelvis);
  const chest = axes(segments.chest);
  const out: AngleErrors[] = [];
  const put = (errorClass: ErrorClass, joint: JointName, deg: readonly number[], trueDeg: number, turnDeg = Number.NaN): void => {
    out.push({ errorClass: CLASS[errorClass], joint: JOINT[joint], deg, trueDeg, turnDeg });
  };
  put('pelvis', 'pelvis', whole(measured('pelvis'), multiply(toStage(truth), pelvis)), 0);
  const spine = multiply(conjugate(pelvis), chest);
  put('spine', 'chest', whole(multiply(measured('spine'), measured('chest')), spine), angleOf(spine) * DEG);
  const head = multiply(conjugate(chest), placed('head').rotation);
  put('head', 'head', whole(multiply(measured('neck'), measured('head')), head), angleOf(head) * DEG);
  const relative = (child: string, parent: Quat): Quat => multiply(conjugate(parent), placed(child).rotation);
  for (const side of SIDES) {
    const limb = segments[side];
    const ball = (errorClass: 'shoulder' | 'hip', joint: JointName, carrier: Quat, bone: Vec3): void => {
      const inCarrier = rotate(conjugate(carrier), bone);
      put(errorClass, joint, pointing(rotate(measured(joint), DOWN), inCarrier), Math.acos(-inCarrier[1]) * DEG,
        aboutBone(measured(joint), relative(joint, carrier), DOWN));
    };
    ball('shoulder', `${side}Shoulder`, chest, limb.upperArm);
    ball('hip', `${side}Hip`, pelvis, limb.thigh);
    const hinge = (errorClass: 'elbow' | 'knee', joint: JointName, sense: 1 | -1): void => {
      const told = truth.joints[joint];
      const flexion = told?.kind === 'hinge' ? told.flexionDeg[frame]! : Number.NaN;
      put(errorClass, joint, [sense * twistAngle(measured(joint), 3) * DEG - flexion], flexion);
    };
    hinge('elbow', `${side}Elbow`, 1);
    hinge('knee', `${side}Knee`, -1);
    const end = (errorClass: 'wrist' | 'ankle', joint: JointName, bone: Vec3): void => {
      const told = truth.joints[joint];
      if (told?.kind !== 'ball') return;
      const turn = told.rotation[frame]!;
      put(errorClass, joint, pointing(rotate(measured(joint), bone), rotate(turn, bone)), angleOf(turn) * DEG, aboutBone(measured(joint), turn, bone));
    };
    end('wrist', `${side}Wrist`, DOWN);
    end('ankle', `${side}Ankle`, FORWARD);
  }
  return out;
}
