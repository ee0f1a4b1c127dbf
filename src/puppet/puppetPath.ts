/**
 * The performer's path at the puppet's scale.
 */
import { readQuat, rotate } from '../numeric/quaternion.ts';
import { add, readVec3, scale, subtract, writeVec3, type Vec3 } from '../numeric/vector3.ts';
import type { CompleteArmature, CompleteDrive } from './complete.ts';
import { skeletonOf } from './kinematics.ts';

/** Leg length taken where the take tells none: of a person of middle height, metres. Our choice. */
const SOME_LEG_M = 0.92;

/** The middle between the joints that the performer's hips drive, from the root bone's start, in its axes; else that start. */
export function pivotMm(armature: CompleteArmature, drives: readonly CompleteDrive[]): Vec3 {
  const { placeMm } = skeletonOf(armature);
  const hips = armature.joints.flatMap(({ parentIndex }, p) =>
    (parentIndex === 0 && /Hip$/.test(drives[p]!.from ?? '') ? [readVec3(placeMm, p)] : []));
  if (hips.length === 0) return [0, 0, 0];
  return scale(hips.reduce(add), 1 / hips.length);
}

/** Millimetres of the set for a metre of the performer: by the length of the legs. */
export function mmPerMetre(armature: CompleteArmature, drives: readonly CompleteDrive[], legLengthM: number): number {
  const legM = legLengthM > 0.05 ? legLengthM : SOME_LEG_M;
  return (armature.rootHeightMm + pivotMm(armature, drives)[1]) / legM;
}

/**
 * Where the root bone starts, mm on the set `[N·3]`: so that the middle between the hips is on the performer's scaled path.
 *
 * @param rootM `[N·3]` the performer's path, metres
 * @param rotations `[N·P·4]`; the root's joint is the first
 */
export function pathOf(
  armature: CompleteArmature, drives: readonly CompleteDrive[], rootM: Float64Array, legLengthM: number, rotations: Float64Array,
): Float64Array {
  const by = mmPerMetre(armature, drives, legLengthM);
  const pivot = pivotMm(armature, drives);
  const width = armature.joints.length;
  const out = new Float64Array(rootM.length).fill(Number.NaN);
  for (let s = 0; s < rootM.length / 3; s++) {
    if (Number.isNaN(rootM[s * 3]!) || Number.isNaN(rotations[s * width * 4]!)) continue;
    writeVec3(out, s, subtract(scale(readVec3(rootM, s), by), rotate(readQuat(rotations, s * width), pivot)));
  }
  return out;
}
