/**
 * From the performer's joints to the puppet's, before the floor and the set are looked at.
 *
 * - A performer's joint that moves nothing is rigid. Its turn passes on to the joints it carries: theirs becomes the product
 *   of all turns from the nearest joint above that moves something, so every segment below keeps its orientation on the
 *   stage. Where it carries none (a hand without a wrist), the turn is lost.
 * - Joints with the same source on one chain of bones share its turn by their weights, as parts of one rotation vector.
 * - A ball or wire takes the whole turn; a hinge, swivel or screw the part about its axis, the twist of q = swing · twist.
 *   What such a joint can't make is lost, not passed on: a knee stays the performer's knee, whatever kind of hip carries
 *   it. Where more than the smallest move is lost, FLAG_LOST says so.
 * - The gain multiplies the rotation vector from rest (the angle, for one axis), followed round without jumps; of the joint
 *   that carries the whole puppet the lean alone, not which way it faces. Then offset
 *   and hand-set curve are added, and what else is put on top (`added.ts`): for balls as a turn about the parent's axes after
 *   the performer's.
 * - Limits: `keepLimits.ts`.
 * - The error of a ball or wire is that of where its bone points, and apart that of its turn about the bone; the error of an angle about one
 *   axis has of both what that axis takes (`axisError.ts`).
 */
import { JOINT_COUNT } from '../motion/joints.ts';
import { STATE_MEASURED, STATE_MISSING } from '../motion/motion.ts';
import { combinedErrorDeg, errorTerms } from '../motion/trust/combine.ts';
import { TURN_LIMIT_DEG, UNSURE_TURN } from '../motion/trust/unsure.ts';
import { conjugate, fromRotationVector, IDENTITY, multiply, readQuat, rotationVector, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { makeSignsContinuous } from '../numeric/quaternionSeries.ts';
import { nearestTurn } from '../numeric/unwrap.ts';
import type { Vec3 } from '../numeric/vector3.ts';
import type { Poses } from '../timing/poses.ts';
import type { Added } from './added.ts';
import { turnsFreely, type Armature } from './armature.ts';
import { writeAxisErrors } from './axisError.ts';
import type { CompleteJoint } from './complete.ts';
import { completeArmature } from './completeArmature.ts';
import { drivesOf, followsOf, type Follow } from './drives.ts';
import { curveValues } from './handCurve.ts';
import { keepLimits } from './keepLimits.ts';
import { FLAG_LOST, type PuppetJoint, type PuppetPoses } from './puppetPoses.ts';
import { DEFAULT_PUPPET_SETTINGS, type CurveAxis, type HandCurve, type PuppetSettings } from './puppetSettings.ts';
import { angleAbout, DEG_PER_RAD, nearestVector, RAD_PER_DEG, turnAbout, twistAbout } from './turns.ts';

export type { PuppetJoint, PuppetPoses } from './puppetPoses.ts';

const UP: Vec3 = [0, 1, 0];

/** The performer's poses at the same N moments, each taken so many steps earlier. `0` must be the moments themselves. */
export type PosesLater = (delaySteps: number) => Poses;

/**
 * @param poses performer's poses at N moments (a Motion will do); a function where joints may lag
 * @param observable `[J]` of the motion they come from
 * @param added put on top at the same moments; of it the turns are looked at here
 */
export function applyArmature(
  poses: Poses | PosesLater, observable: Uint8Array, armature: Armature, settings: Pick<PuppetSettings, 'drives' | 'curves'> = DEFAULT_PUPPET_SETTINGS,
  added: Added | null = null,
): PuppetPoses {
  const posesAt: PosesLater = typeof poses === 'function' ? poses : () => poses;
  const complete = completeArmature(armature);
  const follows = followsOf(complete, drivesOf(complete, settings));
  const { timesS } = posesAt(0);
  const count = timesS.length;
  const width = follows.length;
  const out = {
    rotations: new Float64Array(count * width * 4).fill(Number.NaN),
    confidence: new Float32Array(count * width),
    state: new Uint8Array(count * width),
    errorDeg: new Float32Array(count * width).fill(Number.NaN),
    turnErrorDeg: new Float32Array(count * width).fill(Number.NaN),
    unsure: new Uint8Array(count * width),
    flags: new Uint8Array(count * width),
  };
  const joints = complete.joints.map((joint, p): PuppetJoint => {
    const follow = follows[p]!;
    const curves = settings.curves.filter((curve) => curve.joint === joint.name && curve.keys.length > 0);
    const byHand = handTurns(joint, curves, timesS);
    const turnHidden = writeTrust(posesAt(follow.drive.delaySteps), observable, joint, follow, p, width, curves.length > 0, out);
    writeTurns(posesAt(follow.drive.delaySteps), joint, follow, byHand, added?.turnDeg ?? null, p, width, out);
    return {
      name: joint.name, kind: joint.kind, source: follow.drive.from, axis: joint.axis,
      observable: curves.length > 0 || follow.chain.some((j) => observable[j] === 1),
      turnHidden,
    };
  });
  keepLimits(complete, follows, out.rotations, out.flags);
  makeSignsContinuous(out.rotations, count, width);
  return { joints, ...out };
}

type Out = Omit<PuppetPoses, 'joints'>;

/** @returns PuppetJoint.turnHidden */
function writeTrust(
  poses: Poses, observable: Uint8Array, joint: CompleteJoint, { chain, drive, share }: Follow, p: number, width: number, byHand: boolean, out: Out,
): boolean {
  // a part of a turn, or a multiple of it, has that part of its error
  const by = Math.abs(share * drive.gain);
  const free = turnsFreely(joint.kind);
  const seen = chain.filter((j) => observable[j] === 1);
  const terms = errorTerms(seen);
  const carried = new Float64Array(JOINT_COUNT);
  let known = 0;
  const beyond: number[] = [];
  for (let s = 0; s < poses.timesS.length; s++) {
    const base = s * JOINT_COUNT;
    const at = s * width + p;
    let worst = STATE_MEASURED as number;
    for (const j of chain) worst = Math.max(worst, poses.state[base + j]!);
    out.state[at] = worst;
    if (worst === STATE_MISSING) continue;
    let least = seen.length > 0 || (byHand && chain.length === 0) ? 1 : 0;
    for (const j of seen) least = Math.min(least, poses.confidence[base + j]!);
    out.confidence[at] = least;
    if (free) {
      out.errorDeg[at] = by * combinedErrorDeg(terms, poses.errorDeg, base);
      out.turnErrorDeg[at] = by * combinedErrorDeg(terms, poses.turnErrorDeg, base);
    } else {
      const turnDeg = writeAxisErrors(poses, base, chain, product(poses.rotations, base, chain), joint.axis, carried);
      out.errorDeg[at] = by * combinedErrorDeg(terms, carried, 0);
      // who has set a curve for it has looked at it
      if (turnDeg > TURN_LIMIT_DEG && !byHand) beyond.push(at);
    }
    for (const j of seen) out.unsure[at]! |= poses.unsure[base + j]!;
    known += 1;
  }
  // a mark in every row says no more than one for the whole, and hides the others
  if (beyond.length > known / 2) return true;
  for (const at of beyond) out.unsure[at]! |= UNSURE_TURN;
  return false;
}

function writeTurns(
  poses: Poses, joint: CompleteJoint, { drive, chain, share }: Follow, byHand: HandTurns | null, addedDeg: Float64Array | null, p: number, width: number,
  out: Out,
): void {
  const by = share * drive.gain;
  const free = turnsFreely(joint.kind);
  const { offsetDeg } = drive;
  const offset = fromRotationVector([offsetDeg.forward * RAD_PER_DEG, offsetDeg.up * RAD_PER_DEG, offsetDeg.right * RAD_PER_DEG]);
  const still = offset[0] === 1;
  let lastAngle = 0;
  let lastVector: Vec3 = [0, 0, 0];
  for (let s = 0; s < poses.timesS.length; s++) {
    const at = s * width + p;
    if (out.state[at] === STATE_MISSING) continue;
    let q = product(poses.rotations, s * JOINT_COUNT, chain);
    if (!free) {
      const whole = angleAbout(q, joint.axis);
      lastAngle = nearestTurn(whole, lastAngle);
      // twice the arc cosine of what the twist keeps of the quaternion is the size of what is lost
      const kept = Math.hypot(q[0], q[1] * joint.axis[0] + q[2] * joint.axis[1] + q[3] * joint.axis[2]);
      if (2 * Math.atan2(Math.sqrt(Math.max(0, 1 - kept * kept)), kept) * DEG_PER_RAD > joint.smallestDeg) out.flags[at]! |= FLAG_LOST;
      const angleDeg = lastAngle * DEG_PER_RAD * by + offsetDeg.axis + (byHand?.axis?.[s] ?? 0) + (addedDeg?.[at * 3] ?? 0);
      writeQuat(out.rotations, at, turnAbout(joint.axis, angleDeg));
      continue;
    }
    if (by !== 1 && joint.parentIndex < 0) {
      const heading = twistAbout(q, UP);
      const lean = rotationVector(multiply(conjugate(heading), q));
      q = multiply(heading, fromRotationVector([lean[0] * by, lean[1] * by, lean[2] * by]));
    } else if (by !== 1) {
      lastVector = nearestVector(rotationVector(q), lastVector);
      q = fromRotationVector([lastVector[0] * by, lastVector[1] * by, lastVector[2] * by]);
    }
    if (!still) q = multiply(offset, q);
    if (byHand !== null) {
      q = multiply(fromRotationVector([
        (byHand.forward?.[s] ?? 0) * RAD_PER_DEG, (byHand.up?.[s] ?? 0) * RAD_PER_DEG, (byHand.right?.[s] ?? 0) * RAD_PER_DEG,
      ]), q);
    }
    if (addedDeg !== null) {
      q = multiply(fromRotationVector([addedDeg[at * 3]! * RAD_PER_DEG, addedDeg[at * 3 + 1]! * RAD_PER_DEG, addedDeg[at * 3 + 2]! * RAD_PER_DEG]), q);
    }
    writeQuat(out.rotations, at, q);
  }
}

function product(rotations: Float64Array, base: number, chain: readonly number[]): Quat {
  if (chain.length === 0) return IDENTITY;
  let q = readQuat(rotations, base + chain[0]!);
  for (let i = 1; i < chain.length; i++) q = multiply(q, readQuat(rotations, base + chain[i]!));
  return q;
}

type HandTurns = Partial<Readonly<Record<CurveAxis, Float64Array>>>;

/** Degrees of a joint's hand-set curves at the moments, by axis; curves for axes it doesn't have are left out. */
function handTurns(joint: CompleteJoint, curves: readonly HandCurve[], timesS: Float64Array): HandTurns | null {
  const own = curves.filter(({ axis }) => (axis === 'axis') !== turnsFreely(joint.kind));
  if (own.length === 0) return null;
  return Object.fromEntries(own.map(({ axis, keys }) => [axis, curveValues(keys, timesS)]));
}
