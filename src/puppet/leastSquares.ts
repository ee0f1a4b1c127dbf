/**
 * Inverse kinematics of limbs that have no joint of any turn to aim with: damped least squares on the angles of all
 * joints of the limb (Levenberg-Marquardt; for this use: Wampler 1986, IEEE Trans. SMC 16:93-101, citation from memory).
 *
 * Each round turns every axis of every joint a little as the wanted move of the point asks, damped so that a stretched limb
 * does not flail. The start is the performer's pose, so of all solutions one near to it is found.
 */
import { conjugate, fromRotationVector, multiply, readQuat, rotate, rotationVector, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { cross, length, scale, subtract, type Vec3 } from '../numeric/vector3.ts';
import { turnsFreely, type Triple } from './armature.ts';
import type { CompleteArmature } from './complete.ts';
import { withinLimits } from './keepLimits.ts';
import { chainTo, emptyStance, forwardAlong, orientationOf, pointOn, skeletonOf, startOf } from './kinematics.ts';
import type { Limb } from './limb.ts';

const ROUNDS = 80;
const CLOSE_MM = 1e-6;
const AXES: readonly Triple[] = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];

/**
 * Moves the limb's joints so that the point comes to its target, and the end bone to its orientation where one is given.
 * Meanings as in `LimbReacher.reach`.
 */
export function leastSquares(
  armature: CompleteArmature, limb: Limb, bone: number, pointMm: Vec3, rotations: Float64Array, moment: number, rootMm: Vec3,
  targetMm: Vec3, flat: Quat | null,
): { readonly missMm: number; readonly tilted: boolean } {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const chain = chainTo(skeleton, bone);
  const base = moment * skeleton.count;
  // a turn of the end bone counts as the move of a point as far out as the bone is long
  const armMm = Math.max(1, armature.bones[bone]!.lengthMm);
  const errors = (): number[] => {
    const off = subtract(targetMm, pointOn(stance, bone, pointMm));
    if (flat === null) return [...off];
    const turn = rotationVector(multiply(flat, conjugate(orientationOf(stance, bone))));
    return [...off, ...scale(turn, armMm)];
  };
  const dofs = limb.all.flatMap((p) => (turnsFreely(armature.joints[p]!.kind) ? AXES : [armature.joints[p]!.axis]).map((axis) => ({ p, axis })));
  let damping = 1e-3;
  forwardAlong(skeleton, chain, rotations, moment, rootMm, stance);
  let error = errors();
  for (let round = 0; round < ROUNDS && norm(error) > CLOSE_MM; round++) {
    const tip = pointOn(stance, bone, pointMm);
    const columns = dofs.map(({ p, axis }) => {
      const up = skeleton.parent[p]!;
      const turned = up < 0 ? axis : rotate(orientationOf(stance, up), axis);
      const moved = cross(turned, subtract(tip, startOf(stance, p)));
      return flat === null ? [...moved] : [...moved, ...scale(turned, armMm)];
    });
    const steps = dampedStep(columns, error, damping);
    const kept = limb.all.map((p) => readQuat(rotations, base + p));
    for (const p of limb.all) {
      let turn: Vec3 = [0, 0, 0];
      dofs.forEach((dof, i) => { if (dof.p === p) turn = [turn[0] + dof.axis[0] * steps[i]!, turn[1] + dof.axis[1] * steps[i]!, turn[2] + dof.axis[2] * steps[i]!]; });
      writeQuat(rotations, base + p, withinLimits(armature.joints[p]!, multiply(fromRotationVector(turn), readQuat(rotations, base + p))));
    }
    forwardAlong(skeleton, chain, rotations, moment, rootMm, stance);
    const next = errors();
    if (norm(next) < norm(error)) {
      error = next;
      damping = Math.max(1e-9, damping / 4);
    } else {
      limb.all.forEach((p, i) => writeQuat(rotations, base + p, kept[i]!));
      forwardAlong(skeleton, chain, rotations, moment, rootMm, stance);
      damping *= 8;
      if (damping > 1e6) break;
    }
  }
  return { missMm: length([error[0]!, error[1]!, error[2]!]), tilted: flat !== null && Math.hypot(...error.slice(3)) > armMm * 1e-3 };
}

function norm(values: readonly number[]): number {
  return Math.hypot(...values);
}

/** x = Jᵀ(JJᵀ + λ·trace/m·I)⁻¹ e for the matrix J whose columns are given. */
function dampedStep(columns: readonly (readonly number[])[], error: readonly number[], damping: number): readonly number[] {
  const m = error.length;
  const a: number[][] = error.map((_, r) => error.map((__, c) => columns.reduce((sum, column) => sum + column[r]! * column[c]!, 0)));
  const trace = a.reduce((sum, row, r) => sum + row[r]!, 0);
  a.forEach((row, r) => { row[r]! += damping * (trace / m) + 1e-12; });
  const y = solve(a, error);
  return columns.map((column) => column.reduce((sum, v, r) => sum + v * y[r]!, 0));
}

/** Gauss elimination with row exchange; the matrix is positive definite. */
function solve(a: number[][], b: readonly number[]): readonly number[] {
  const n = b.length;
  const x = [...b];
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[pivot]![c]!)) pivot = r;
    [a[c], a[pivot]] = [a[pivot]!, a[c]!];
    [x[c], x[pivot]] = [x[pivot]!, x[c]!];
    for (let r = c + 1; r < n; r++) {
      const by = a[r]![c]! / a[c]![c]!;
      for (let k = c; k < n; k++) a[r]![k]! -= by * a[c]![k]!;
      x[r]! -= by * x[c]!;
    }
  }
  for (let r = n - 1; r >= 0; r--) {
    for (let k = r + 1; k < n; k++) x[r]! -= a[r]![k]! * x[k]!;
    x[r]! /= a[r]![r]!;
  }
  return x;
}
