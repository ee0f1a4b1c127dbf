/**
 * Puts the end of one limb where it is wanted, at one moment, as near to the performer's pose as it can be.
 *
 * First the hinges bend until the distance fits (`limbBend.ts`), then the aiming joint turns by the smallest turn that points
 * the limb there, which keeps the sense of knee or elbow; then the foot turns back flat. Limbs without an aiming joint are
 * solved by damped least squares (`leastSquares.ts`).
 */
import { conjugate, fromAxisAngle, multiply, readQuat, rotate, rotationVector, shortestArc, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { length, readVec3, subtract, unit, type Vec3 } from '../numeric/vector3.ts';
import { turnsFreely } from './armature.ts';
import type { CompleteArmature } from './complete.ts';
import { withinLimits } from './keepLimits.ts';
import { chainTo, emptyStance, forwardAlong, orientationOf, pointOn, skeletonOf, startOf, type Skeleton, type Stance } from './kinematics.ts';
import { leastSquares } from './leastSquares.ts';
import { bendOf, limbOf, type Limb } from './limb.ts';
import type { LimbBend } from './limbBend.ts';
import { angleAbout, twistAbout } from './turns.ts';

export interface Reach {
  /** How far the point stays from its place, mm; limits and length allow no better. */
  readonly missMm: number;
  /** A limit of the last joint keeps the end bone from its wanted orientation. */
  readonly tilted: boolean;
}

/** Solves one limb of one armature, as often as wanted. */
export class LimbReacher {
  readonly limb: Limb;
  private readonly armature: CompleteArmature;
  private readonly skeleton: Skeleton;
  private readonly bone: number;
  private readonly pointMm: Vec3;
  private readonly bend: LimbBend | null;
  private readonly stance: Stance;
  private readonly local: Float64Array;
  /** From the root to the end bone; of these what the aiming joint moves; the end bone alone. */
  private readonly chain: Int32Array;
  private readonly leg: Int32Array;
  private readonly end: Int32Array;

  /**
   * @param bone index of the bone that the point is fixed to
   * @param pointMm from that bone's start, in its axes
   */
  constructor(armature: CompleteArmature, bone: number, pointMm: Vec3) {
    this.armature = armature;
    this.skeleton = skeletonOf(armature);
    this.bone = bone;
    this.pointMm = pointMm;
    this.limb = limbOf(armature, bone);
    this.chain = chainTo(this.skeleton, bone);
    this.leg = this.chain.subarray(Math.max(0, this.chain.indexOf(this.limb.aim)));
    this.end = this.chain.subarray(-1);
    this.stance = emptyStance(this.skeleton);
    this.local = new Float64Array(this.skeleton.count * 4);
    const rest = this.limb.rest.reduce<Vec3>((v, p) => plus(v, readVec3(this.skeleton.placeMm, p)), pointMm);
    this.bend = this.limb.aim < 0 ? null : bendOf(armature, this.limb, rest);
  }

  /**
   * Changes the limb's joints at one moment.
   *
   * @param rotations `[…·P·4]`, changed in place
   * @param moment which block of P
   * @param rootMm start of the root bone then
   * @param targetMm where the point is wanted, in the set's axes
   * @param flat orientation that the end bone is to have in the set; `null`: joints behind the last bend stay as they are
   */
  reach(rotations: Float64Array, moment: number, rootMm: Vec3, targetMm: Vec3, flat: Quat | null): Reach {
    const { limb, armature, skeleton, stance, bend } = this;
    const base = moment * skeleton.count;
    if (bend === null) return leastSquares(armature, limb, this.bone, this.pointMm, rotations, moment, rootMm, targetMm, flat);
    forwardAlong(skeleton, this.chain, rotations, moment, rootMm, stance);
    const { joints } = armature;
    const aimStart = startOf(stance, limb.aim);
    const wanted = subtract(targetMm, aimStart);
    const angles = limb.bends.map((p) => angleAbout(readQuat(rotations, base + p), joints[p]!.axis));
    const fixed = limb.bends.map((p) => readQuat(rotations, base + p));
    const tip = this.tip(rotations, base, flat);
    const bent = bend.solve(angles, fixed, tip, length(wanted));
    limb.bends.forEach((p, i) => {
      if (!turnsFreely(joints[p]!.kind)) writeQuat(rotations, base + p, fromAxisAngle(joints[p]!.axis, bent.anglesRad[i]!));
    });
    const carrier = this.orientationAbove(limb.aim);
    const was = readQuat(rotations, base + limb.aim);
    const now = unit(rotate(was, bend.reach(bent.anglesRad, fixed, tip)));
    const there = unit(rotate(conjugate(carrier), wanted));
    if (now !== undefined && there !== undefined) {
      writeQuat(rotations, base + limb.aim, withinLimits(joints[limb.aim]!, multiply(shortestArc(now, there), was)));
    }
    forwardAlong(skeleton, this.leg, rotations, moment, rootMm, stance);
    let tilted = false;
    if (flat !== null) {
      tilted = this.layFlat(rotations, base, flat);
      forwardAlong(skeleton, this.end, rotations, moment, rootMm, stance);
      // what the ankle can't turn the whole leg can, about the line from hip to ankle, which moves neither of them
      for (let round = 0; round < 3 && tilted; round++) {
        this.twistLimb(rotations, base, flat);
        forwardAlong(skeleton, this.leg, rotations, moment, rootMm, stance);
        tilted = this.layFlat(rotations, base, flat);
        forwardAlong(skeleton, this.end, rotations, moment, rootMm, stance);
      }
    }
    return { missMm: length(subtract(pointOn(stance, this.bone, this.pointMm), targetMm)), tilted };
  }

  /**
   * The wanted point from the last bending bone's start, in that bone's axes. With a wanted orientation the point is the end
   * bone's start, which its own joint does not move.
   */
  private tip(rotations: Float64Array, base: number, flat: Quat | null): Vec3 {
    const { limb, skeleton } = this;
    if (flat !== null && limb.rest.length === 1) return readVec3(skeleton.placeMm, this.bone);
    return limb.rest.reduceRight<Vec3>(
      (v, p) => plus(readVec3(skeleton.placeMm, p), rotate(readQuat(rotations, base + p), v)), this.pointMm,
    );
  }

  private orientationAbove(joint: number): Quat {
    const up = this.skeleton.parent[joint]!;
    return up < 0 ? [1, 0, 0, 0] : orientationOf(this.stance, up);
  }

  /** Turns the end bone to an orientation as far as its joint can; true where it can't. */
  private layFlat(rotations: Float64Array, base: number, flat: Quat): boolean {
    const joint = this.armature.joints[this.bone]!;
    const wanted = multiply(conjugate(this.orientationAbove(this.bone)), flat);
    const made = withinLimits(joint, turnsFreely(joint.kind) ? wanted : twistAbout(wanted, joint.axis));
    writeQuat(rotations, base + this.bone, made);
    return length(rotationVector(multiply(wanted, conjugate(made)))) > 1e-6;
  }

  private twistLimb(rotations: Float64Array, base: number, flat: Quat): void {
    const { aim } = this.limb;
    const line = unit(subtract(startOf(this.stance, this.bone), startOf(this.stance, aim)));
    if (line === undefined) return;
    const left = rotationVector(multiply(flat, conjugate(orientationOf(this.stance, this.bone))));
    const by = left[0] * line[0] + left[1] * line[1] + left[2] * line[2];
    const axis = rotate(conjugate(this.orientationAbove(aim)), line);
    const turned = multiply(fromAxisAngle(axis, by), readQuat(rotations, base + aim));
    // only where the limb can make it whole: a part of it would take the foot off its place
    if (withinLimits(this.armature.joints[aim]!, turned) === turned) writeQuat(rotations, base + aim, turned);
  }

  /** Farthest and nearest that the point can be from the aiming joint within the limits, mm, found by bending all the way. */
  span(): { readonly leastMm: number; readonly mostMm: number } | null {
    if (this.bend === null) return null;
    const none = this.limb.bends.map((): Quat => [1, 0, 0, 0]);
    const rest = this.limb.bends.map(() => 0);
    const tip = this.tip(restTurns(this.local), 0, null);
    const far = this.bend.solve(rest, none, tip, 1e6);
    const near = this.bend.solve(rest, none, tip, 0);
    return {
      mostMm: length(this.bend.reach(far.anglesRad, none, tip)), leastMm: length(this.bend.reach(near.anglesRad, none, tip)),
    };
  }
}

function restTurns(turns: Float64Array): Float64Array {
  for (let p = 0; p < turns.length; p += 4) turns[p] = 1;
  return turns;
}

function plus(a: Vec3, b: Vec3): Vec3 {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}
