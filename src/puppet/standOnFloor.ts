/**
 * Puts the puppet on its floor: with other proportions than the performer's its feet would float, sink and slide.
 *
 * 1. The performer's path is scaled by the length of the legs.
 * 2. Wherever a foot stands for a while it gets one place and one direction for the whole while: the mean of where the
 *    performer's angles would put it, flat on the floor.
 * 3. The body is moved so that standing feet, with the performer's own angles, come as near to their places as they can: a
 *    foot counts less at the beginning and end of its stand, so that weight goes over from foot to foot without a jerk.
 *    What is put on top (`added.ts`) shifts it then. Where a leg would be too short, the body comes nearer.
 * 4. Each leg is solved again (`reachLimb.ts`). Between two stands a foot keeps the performer's path plus a share of the
 *    corrections on both sides, and never goes below the floor.
 */
import { conjugate, fromAxisAngle, IDENTITY, multiply, readQuat, rotate, slerp, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { add, length, readVec3, scale, subtract, writeVec3, type Vec3 } from '../numeric/vector3.ts';
import type { CompleteArmature } from './complete.ts';
import type { Foot } from './feet.ts';
import { emptyStance, forward, orientationOf, pointOn, skeletonOf, startOf } from './kinematics.ts';
import { FLAG_CLIPPED, FLAG_FOOT_SHORT, FLAG_SPREAD } from './puppetPoses.ts';
import { LimbReacher } from './reachLimb.ts';
import { standsOf, type Stand } from './stands.ts';

/** A foot that stays this far from its place is flagged, mm: far below what slides visibly. Our choice. */
const MISS_MM = 0.1;
/** Part of a leg's greatest reach that is used, so that a straight knee does not snap. Our choice. */
const USED_REACH = 0.9995;
const REACH_ROUNDS = 60;
const UP: Vec3 = [0, 1, 0];

/**
 * @param pathMm `[N·3]` where the root bone would start by the performer's scaled path; NaN where missing. Changed in place.
 * @param rotations `[N·P·4]`, changed in place. @param flags `[N·P]`, bits added
 * @param stands `[N·F]` of `standingFeet`
 * @param shiftMm `[N·3]` of the body, while its standing feet stay
 * @param timesS `[N]` moments of the take: a foot that is lifted goes on with the performance, and stays while that is held; without
 *   them with the steps
 * @returns the stands with their places, by foot and in order
 */
export function standOnFloor(
  armature: CompleteArmature, feet: readonly Foot[], stands: Uint8Array, pathMm: Float64Array, rotations: Float64Array, flags: Uint8Array,
  shiftMm: Float64Array | null = null, timesS: Float64Array | null = null,
): readonly PlacedStand[] {
  if (feet.length === 0) return [];
  const skeleton = skeletonOf(armature);
  const count = pathMm.length / 3;
  const width = skeleton.count;
  const reachers = feet.map(({ bone }) => new LimbReacher(armature, bone, [0, 0, 0]));
  const spans = reachers.map((reacher) => reacher.span());
  const known = (s: number): boolean => !Number.isNaN(pathMm[s * 3]!) && !Number.isNaN(rotations[s * width * 4]!);

  // from the root: each foot's place and orientation, and where its leg begins, by the performer's angles
  const offset = new Float64Array(count * feet.length * 3);
  const turned = new Float64Array(count * feet.length * 4);
  const hip = new Float64Array(count * feet.length * 3);
  const stance = emptyStance(skeleton);
  for (let s = 0; s < count; s++) {
    if (!known(s)) continue;
    forward(skeleton, rotations, s, [0, 0, 0], stance);
    feet.forEach(({ bone }, f) => {
      const at = s * feet.length + f;
      writeVec3(offset, at, startOf(stance, bone));
      writeQuat(turned, at, orientationOf(stance, bone));
      if (reachers[f]!.limb.aim >= 0) writeVec3(hip, at, startOf(stance, reachers[f]!.limb.aim));
    });
  }

  const found = standsOf(stands, feet.length, count, known);
  if (found.length === 0) {
    shift(pathMm, shiftMm);
    setDown(armature, feet, count, known, pathMm, offset, turned);
    return [];
  }
  const all = found.map((stand): PlacedStand => place(armature, feet, stand, pathMm, offset, turned));
  moveRoot(all, feet.length, count, known, pathMm, offset);
  shift(pathMm, shiftMm);
  for (let s = 0; s < count; s++) if (known(s)) bringNearer(s, all, feet.length, spans, reachers, hip, pathMm);

  const standAt = indexStands(all, feet.length, count);
  for (let s = 0; s < count; s++) {
    if (!known(s)) continue;
    const root = readVec3(pathMm, s);
    feet.forEach(({ bone }, f) => {
      const at = s * feet.length + f;
      const raw = add(root, readVec3(offset, at));
      const rawTurn = readQuat(turned, at);
      const here = standAt[at]!;
      const goal = here.now !== null
        ? { place: here.now.placeMm, turn: here.now.turn }
        : between(s, f, feet.length, here, raw, rawTurn, pathMm, offset, turned, timesS);
      const target = here.now !== null ? goal.place : aboveFloor(armature, bone, goal.place, goal.turn);
      const { missMm, tilted } = reachers[f]!.reach(rotations, s, root, target, goal.turn);
      if (here.now === null) return;
      const { limb } = reachers[f]!;
      // the leg was solved anew: what the performer's own angles had cut off no longer counts
      for (const p of limb.all) flags[s * width + p]! &= ~(FLAG_CLIPPED | FLAG_SPREAD);
      if (missMm > MISS_MM) for (const p of limb.all) flags[s * width + p]! |= FLAG_FOOT_SHORT;
      if (tilted) flags[s * width + bone]! |= FLAG_CLIPPED;
    });
  }
  return all;
}

function shift(pathMm: Float64Array, byMm: Float64Array | null): void {
  if (byMm !== null) for (let i = 0; i < pathMm.length; i++) pathMm[i]! += byMm[i]!;
}

/** A take that tells of no stand: the legs stay as performed, and the lowest sole is set on the floor at every step. */
function setDown(
  armature: CompleteArmature, feet: readonly Foot[], count: number, known: (s: number) => boolean, pathMm: Float64Array,
  offset: Float64Array, turned: Float64Array,
): void {
  for (let s = 0; s < count; s++) {
    if (!known(s)) continue;
    let lowest = Number.POSITIVE_INFINITY;
    feet.forEach(({ bone }, f) => {
      const at = s * feet.length + f;
      lowest = Math.min(lowest, lowestCorner(armature, bone, readVec3(offset, at)[1], readQuat(turned, at)));
    });
    pathMm[s * 3 + 1] = -lowest;
  }
}

/** A stand with its place on the floor: the foot bone's start, mm on the set, and its orientation, flat. */
export interface PlacedStand extends Stand {
  readonly placeMm: Vec3;
  readonly turn: Quat;
}

function place(
  armature: CompleteArmature, feet: readonly Foot[], stand: Stand, pathMm: Float64Array, offset: Float64Array, turned: Float64Array,
): PlacedStand {
  const { foot, from, to } = stand;
  let x = 0;
  let z = 0;
  let forwardX = 0;
  let forwardZ = 0;
  for (let s = from; s <= to; s++) {
    const at = s * feet.length + foot;
    x += pathMm[s * 3]! + offset[at * 3]!;
    z += pathMm[s * 3 + 2]! + offset[at * 3 + 2]!;
    const ahead = rotate(readQuat(turned, at), [1, 0, 0]);
    forwardX += ahead[0];
    forwardZ += ahead[2];
  }
  const steps = to - from + 1;
  const sole = armature.bones[feet[foot]!.bone]!.sole!;
  return {
    ...stand, placeMm: [x / steps, sole.dropMm, z / steps],
    turn: Math.hypot(forwardX, forwardZ) < 1e-9 ? IDENTITY : fromAxisAngle(UP, Math.atan2(-forwardZ, forwardX)),
  };
}

/** Moves the path to where standing feet with the performer's angles have their places, without a jerk from foot to foot. */
function moveRoot(
  stands: readonly PlacedStand[], feet: number, count: number, known: (s: number) => boolean, pathMm: Float64Array, offset: Float64Array,
): void {
  const moved = new Float64Array(count * 3);
  const weight = new Float64Array(count);
  for (const { foot, from, to, placeMm } of stands) {
    for (let s = from; s <= to; s++) {
      // a stand that the take begins or ends with has no edge there
      const edge = Math.min(from === 0 ? Infinity : s - from + 1, to === count - 1 ? Infinity : to - s + 1);
      const w = Math.min(1, edge / 4);
      weight[s]! += w;
      for (let c = 0; c < 3; c++) moved[s * 3 + c]! += w * (placeMm[c]! - pathMm[s * 3 + c]! - offset[(s * feet + foot) * 3 + c]!);
    }
  }
  let last = -1;
  for (let s = 0; s < count; s++) {
    if (weight[s]! <= 0) continue;
    for (let c = 0; c < 3; c++) moved[s * 3 + c]! /= weight[s]!;
    // in the air: from the shift before to the one after, evenly; before the first and after the last as there
    for (let t = last + 1; t < s; t++) {
      const u = last < 0 ? 1 : (t - last) / (s - last);
      for (let c = 0; c < 3; c++) moved[t * 3 + c] = (last < 0 ? 0 : (1 - u) * moved[last * 3 + c]!) + u * moved[s * 3 + c]!;
    }
    last = s;
  }
  if (last >= 0) for (let t = last + 1; t < count; t++) for (let c = 0; c < 3; c++) moved[t * 3 + c] = moved[last * 3 + c]!;
  for (let s = 0; s < count; s++) if (known(s)) for (let c = 0; c < 3; c++) pathMm[s * 3 + c]! += moved[s * 3 + c]!;
}

/** Moves the root by the least that brings every standing foot within its leg's reach (projections in turn). */
function bringNearer(
  s: number, stands: readonly PlacedStand[], feet: number, spans: readonly ({ leastMm: number; mostMm: number } | null)[],
  reachers: readonly LimbReacher[], hip: Float64Array, pathMm: Float64Array,
): void {
  const here = stands.filter(({ from, to, foot }) => from <= s && s <= to && spans[foot] !== null && reachers[foot]!.limb.aim >= 0);
  for (let round = 0; round < REACH_ROUNDS; round++) {
    let moved = false;
    for (const { foot, placeMm } of here) {
      const { leastMm, mostMm } = spans[foot]!;
      const from = add(readVec3(pathMm, s), readVec3(hip, s * feet + foot));
      const way = subtract(placeMm, from);
      const distance = length(way);
      const wanted = Math.min(mostMm * USED_REACH, Math.max(leastMm, distance));
      if (Math.abs(wanted - distance) < 1e-6 || distance === 0) continue;
      moved = true;
      writeVec3(pathMm, s, add(readVec3(pathMm, s), scale(way, (distance - wanted) / distance)));
    }
    if (!moved) return;
  }
}

interface Around {
  readonly now: PlacedStand | null;
  readonly before: PlacedStand | null;
  readonly after: PlacedStand | null;
}

function indexStands(stands: readonly PlacedStand[], feet: number, count: number): readonly Around[] {
  const out: Around[] = Array.from({ length: count * feet });
  for (let f = 0; f < feet; f++) {
    const own = stands.filter(({ foot }) => foot === f);
    let k = 0;
    for (let s = 0; s < count; s++) {
      while (k < own.length && own[k]!.to < s) k++;
      const next = own[k] ?? null;
      const now = next !== null && next.from <= s ? next : null;
      out[s * feet + f] = { now, before: k > 0 ? own[k - 1]! : null, after: now === null ? next : null };
    }
  }
  return out;
}

/** Where a lifted foot goes: the performer's way, plus what the stands before and behind had to be put right by. */
function between(
  s: number, f: number, feet: number, { before, after }: Around, raw: Vec3, rawTurn: Quat,
  pathMm: Float64Array, offset: Float64Array, turned: Float64Array, timesS: Float64Array | null,
): { readonly place: Vec3; readonly turn: Quat } {
  const fix = (stand: PlacedStand, step: number): { move: Vec3; turn: Quat } => {
    const at = step * feet + f;
    return {
      move: subtract(stand.placeMm, add(readVec3(pathMm, step), readVec3(offset, at))),
      turn: multiply(stand.turn, conjugate(readQuat(turned, at))),
    };
  };
  const start = before === null ? null : fix(before, before.to);
  const end = after === null ? null : fix(after, after.from);
  if (start === null && end === null) return { place: raw, turn: rawTurn };
  const along = (from: number, to: number): number => {
    const takes = timesS === null ? 0 : timesS[to]! - timesS[from]!;
    return takes > 0 ? (timesS![s]! - timesS![from]!) / takes : (s - from) / (to - from);
  };
  const u = before === null ? 1 : after === null ? 0 : along(before.to, after.from);
  const soft = u * u * (3 - 2 * u);
  const a = start ?? end!;
  const b = end ?? start!;
  return { place: add(raw, add(scale(a.move, 1 - soft), scale(b.move, soft))), turn: multiply(slerp(a.turn, b.turn, soft), rawTurn) };
}

/** Lifted as far as the lowest corner of the sole lies under the floor. */
function aboveFloor(armature: CompleteArmature, bone: number, placeMm: Vec3, turn: Quat): Vec3 {
  return [placeMm[0], placeMm[1] - Math.min(0, lowestCorner(armature, bone, placeMm[1], turn)), placeMm[2]];
}

/** Height of the lowest corner of a sole whose bone starts at a height. */
function lowestCorner(armature: CompleteArmature, bone: number, heightMm: number, turn: Quat): number {
  const { outlineMm, dropMm } = armature.bones[bone]!.sole!;
  return Math.min(...outlineMm.map(([x, z]) => heightMm + rotate(turn, [x, -dropMm, z])[1]));
}

/** Corner of a sole on the set, for readings and tests. */
export function soleCorner(armature: CompleteArmature, stance: ReturnType<typeof emptyStance>, bone: number, corner: number): Vec3 {
  const sole = armature.bones[bone]!.sole!;
  const [x, z] = sole.outlineMm[corner]!;
  return pointOn(stance, bone, [x, -sole.dropMm, z]);
}
