/**
 * Forward kinematics: where every bone is when the joints are turned. Millimetres, the puppet's axes (X forward, Y up,
 * Z right), or the set's when the root is told in those.
 *
 * A bone's orientation is its parent's followed by its joint's turn; its start is its parent's start plus the joint's place
 * on the parent, turned with the parent. Plain numbers in place, since thousands of steps go through here at every setting.
 */
import { rotate, readQuat, type Quat } from '../numeric/quaternion.ts';
import { add, readVec3, scale, type Vec3 } from '../numeric/vector3.ts';
import type { CompleteArmature } from './complete.ts';

/**
 * P bones, parents first.
 * - `parent[P]` index, -1 for the root. `placeMm[P·3]` of the joint from the parent bone's start, in the parent's axes.
 * - `endMm[P·3]` of the bone's end from its own start, in its own axes.
 */
export interface Skeleton {
  readonly count: number;
  /** 0..P-1. */
  readonly all: Int32Array;
  readonly parent: Int32Array;
  readonly placeMm: Float64Array;
  readonly endMm: Float64Array;
}

/** Starts `[P·3]` mm and orientations `[P·4]` of all bones at one moment. */
export interface Stance {
  readonly startMm: Float64Array;
  readonly orientation: Float64Array;
}

const known = new WeakMap<CompleteArmature, Skeleton>();

/** The armature as numbers; remembered by identity. */
export function skeletonOf(armature: CompleteArmature): Skeleton {
  let skeleton = known.get(armature);
  if (skeleton === undefined) {
    skeleton = build(armature);
    known.set(armature, skeleton);
  }
  return skeleton;
}

function build({ bones, joints }: CompleteArmature): Skeleton {
  const count = bones.length;
  const placeMm = new Float64Array(count * 3);
  const endMm = new Float64Array(count * 3);
  joints.forEach(({ parentIndex, at, offsetMm }, p) => {
    endMm.set(scale(bones[p]!.along, bones[p]!.lengthMm), p * 3);
    if (parentIndex < 0) return;
    const { along, lengthMm } = bones[parentIndex]!;
    placeMm.set(add(scale(along, lengthMm * at), offsetMm), p * 3);
  });
  return { count, all: Int32Array.from(bones.keys()), parent: Int32Array.from(joints, ({ parentIndex }) => parentIndex), placeMm, endMm };
}

export function emptyStance({ count }: Skeleton): Stance {
  return { startMm: new Float64Array(count * 3), orientation: new Float64Array(count * 4) };
}

/**
 * Fills a stance.
 *
 * @param rotations `[…·P·4]` unit quaternions w, x, y, z of the joints (child against parent; the root's against the set)
 * @param moment which block of P quaternions is read
 * @param rootMm start of the root bone
 */
export function forward(skeleton: Skeleton, rotations: Float64Array, moment: number, rootMm: Vec3, into: Stance): void {
  forwardAlong(skeleton, skeleton.all, rotations, moment, rootMm, into);
}

/**
 * Fills the entries of some bones alone.
 *
 * @param bones indices, parents before children; the parent of each is among them, or already stands in the stance
 */
export function forwardAlong(
  skeleton: Skeleton, bones: Int32Array, rotations: Float64Array, moment: number, rootMm: Vec3, into: Stance,
): void {
  const { count, parent, placeMm } = skeleton;
  const { startMm, orientation } = into;
  for (let i = 0; i < bones.length; i++) {
    const p = bones[i]!;
    const at = (moment * count + p) * 4;
    const w = rotations[at]!;
    const x = rotations[at + 1]!;
    const y = rotations[at + 2]!;
    const z = rotations[at + 3]!;
    const out = p * 4;
    const up = parent[p]!;
    if (up < 0) {
      orientation[out] = w;
      orientation[out + 1] = x;
      orientation[out + 2] = y;
      orientation[out + 3] = z;
      startMm[p * 3] = rootMm[0];
      startMm[p * 3 + 1] = rootMm[1];
      startMm[p * 3 + 2] = rootMm[2];
      continue;
    }
    const a = orientation[up * 4]!;
    const b = orientation[up * 4 + 1]!;
    const c = orientation[up * 4 + 2]!;
    const d = orientation[up * 4 + 3]!;
    orientation[out] = a * w - b * x - c * y - d * z;
    orientation[out + 1] = a * x + b * w + c * z - d * y;
    orientation[out + 2] = a * y - b * z + c * w + d * x;
    orientation[out + 3] = a * z + b * y - c * x + d * w;
    const px = placeMm[p * 3]!;
    const py = placeMm[p * 3 + 1]!;
    const pz = placeMm[p * 3 + 2]!;
    // v + 2w(u × v) + 2u × (u × v)
    const tx = 2 * (c * pz - d * py);
    const ty = 2 * (d * px - b * pz);
    const tz = 2 * (b * py - c * px);
    startMm[p * 3] = startMm[up * 3]! + px + a * tx + c * tz - d * ty;
    startMm[p * 3 + 1] = startMm[up * 3 + 1]! + py + a * ty + d * tx - b * tz;
    startMm[p * 3 + 2] = startMm[up * 3 + 2]! + pz + a * tz + b * ty - c * tx;
  }
}

/** The bones from the root out to one of them, that one included. */
export function chainTo({ parent }: Skeleton, bone: number): Int32Array {
  const chain: number[] = [];
  for (let p = bone; p >= 0; p = parent[p]!) chain.unshift(p);
  return Int32Array.from(chain);
}

export function orientationOf(stance: Stance, bone: number): Quat {
  return readQuat(stance.orientation, bone);
}

export function startOf(stance: Stance, bone: number): Vec3 {
  return readVec3(stance.startMm, bone);
}

/** A point that is fixed to a bone, given from its start in its own axes, mm. */
export function pointOn(stance: Stance, bone: number, localMm: Vec3): Vec3 {
  return add(startOf(stance, bone), rotate(orientationOf(stance, bone), localMm));
}

/** The far end of a bone. */
export function endOf(skeleton: Skeleton, stance: Stance, bone: number): Vec3 {
  return pointOn(stance, bone, readVec3(skeleton.endMm, bone));
}
