/**
 * Where the whole puppet is when its joints stand as ordered.
 *
 * A puppet that stands is held by a foot: its place follows from where that foot is tied down and from the rounded angles
 * of its leg. The foot that has stood longest holds; while two feet stand, rounding puts the other a little beside its
 * place, and the datum readings say where. Where no foot stands a rig holds it, at the exact path to the nearest half millimetre.
 */
import { subtract, writeVec3 } from '../numeric/vector3.ts';
import type { CompleteArmature } from './complete.ts';
import type { Foot } from './feet.ts';
import { emptyStance, forward, skeletonOf, startOf } from './kinematics.ts';
import type { PlacedStand } from './standOnFloor.ts';

/** Smallest move of a rig, mm: common practice, no source. */
export const RIG_STEP_MM = 0.5;

/** `root[N·3]` start of the root bone, mm, NaN where there is no pose; `holding[N]` index of the foot that holds, -1 a rig. */
export interface OrderedRoot {
  readonly root: Float64Array;
  readonly holding: Int32Array;
}

/**
 * @param exactMm `[N·3]` @param rotations `[N·P·4]` ordered turns
 */
export function orderRoot(
  armature: CompleteArmature, feet: readonly Foot[], placed: readonly PlacedStand[], exactMm: Float64Array, rotations: Float64Array,
): OrderedRoot {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const count = exactMm.length / 3;
  const root = new Float64Array(exactMm.length).fill(Number.NaN);
  const holding = holdingStands(placed, count);
  const feetHolding = new Int32Array(count).fill(-1);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(exactMm[s * 3]!)) continue;
    const stand = holding[s];
    if (stand === undefined || stand === null) {
      for (let c = s * 3; c < s * 3 + 3; c++) root[c] = Math.round(exactMm[c]! / RIG_STEP_MM) * RIG_STEP_MM;
      continue;
    }
    forward(skeleton, rotations, s, [0, 0, 0], stance);
    writeVec3(root, s, subtract(stand.placeMm, startOf(stance, feet[stand.foot]!.bone)));
    feetHolding[s] = stand.foot;
  }
  return { root, holding: feetHolding };
}

/** For each step the stand that began first among those that hold then. */
function holdingStands(placed: readonly PlacedStand[], count: number): readonly (PlacedStand | null)[] {
  const out: (PlacedStand | null)[] = Array.from({ length: count }, () => null);
  for (const stand of placed) {
    for (let s = stand.from; s <= stand.to; s++) {
      const other = out[s] ?? null;
      if (other === null || stand.from < other.from) out[s] = stand;
    }
  }
  return out;
}
