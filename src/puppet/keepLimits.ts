/**
 * Keeps every joint within its limits.
 *
 * What does not fit is given to neighbours that make the same move, by their weights: joints that bend as one (those with
 * the same source; spine and chest, neck and head, which the performer's bend is shared between by rule), and a joint of
 * one axis next to another about the same line. The turn of the whole group is kept as far as its joints have room.
 * What still does not fit is cut off and flagged on the joint that wanted it.
 *
 * Limits of balls and wires are on the parts of the rotation vector from rest about the parent's forward, up and right axes.
 */
import { conjugate, fromRotationVector, IDENTITY, multiply, readQuat, rotate, rotationVector, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { length, type Vec3 } from '../numeric/vector3.ts';
import { turnsFreely, type Range } from './armature.ts';
import type { CompleteArmature, CompleteJoint } from './complete.ts';
import type { Follow } from './drives.ts';
import { FLAG_CLIPPED, FLAG_SPREAD } from './puppetPoses.ts';
import { angleAbout, DEG_PER_RAD, RAD_PER_DEG, turnAbout } from './turns.ts';

/** Below this a limit counts as kept, degrees: far under any hand, far over rounding. */
const TOUCH_DEG = 1e-6;
const ROUNDS = 8;

/** The turn within the joint's limits that is nearest by its own numbers. */
export function withinLimits(joint: CompleteJoint, q: Quat): Quat {
  const { limitsDeg } = joint;
  if (!turnsFreely(joint.kind)) {
    if (limitsDeg.axis === null) return q;
    const angle = angleAbout(q, joint.axis) * DEG_PER_RAD;
    const kept = nearestWithin(angle, limitsDeg.axis);
    return kept === angle ? q : turnAbout(joint.axis, kept);
  }
  const { forward, up, right } = limitsDeg;
  if (forward === null && up === null && right === null) return q;
  const v = rotationVector(q);
  const kept: Vec3 = [clampRad(v[0], forward), clampRad(v[1], up), clampRad(v[2], right)];
  return kept[0] === v[0] && kept[1] === v[1] && kept[2] === v[2] ? q : fromRotationVector(kept);
}

/** An angle read between -180 and 180 whose limits may lie beyond: the same stand by whole turns, where one fits. */
function nearestWithin(angleDeg: number, [least, most]: Range): number {
  for (const turn of [0, 360, -360]) if (angleDeg + turn >= least && angleDeg + turn <= most) return angleDeg;
  return clamp(angleDeg, least, most);
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}

function clampRad(value: number, range: Range | null): number {
  return range === null ? value : clamp(value, range[0] * RAD_PER_DEG, range[1] * RAD_PER_DEG);
}

/** Joints that make one bend together, and their parts of it. */
interface Group {
  /** Along the chain, from the root outward. */
  readonly members: readonly number[];
  readonly weights: readonly number[];
}

/**
 * @param rotations `[N·P·4]`, changed in place; NaN passed over
 * @param flags `[N·P]`, FLAG_CLIPPED and FLAG_SPREAD set
 */
export function keepLimits(
  armature: CompleteArmature, follows: readonly Follow[], rotations: Float64Array, flags: Uint8Array,
): void {
  const { joints } = armature;
  const width = joints.length;
  const limited = joints.map(({ limitsDeg: l }) => l.axis !== null || l.forward !== null || l.up !== null || l.right !== null);
  const groups = groupsOf(armature, follows);
  const count = width === 0 ? 0 : rotations.length / (width * 4);
  limited.forEach((isLimited, p) => {
    if (!isLimited) return;
    const group = groups.find(({ members }) => members.includes(p)) ?? { members: [p], weights: [1] };
    // a group is settled as a whole, once, at its first limited member
    const asked = group.members.filter((m) => limited[m]);
    if (asked[0] !== p) return;
    const tests = asked.map((m) => within(joints[m]!));
    for (let s = 0; s < count; s++) {
      for (let i = 0; i < asked.length; i++) {
        if (tests[i]!(rotations, (s * width + asked[i]!) * 4)) continue;
        settle(armature, group, rotations, flags, s);
        break;
      }
    }
  });
}

/**
 * Whether {@link withinLimits} would leave a turn as it is, asked of numbers in place: nearly every turn of a take is within
 * its limits, so this is what most steps cost. NaN is not.
 *
 * @returns a test of the quaternion at an index of an array
 */
function within({ kind, axis, limitsDeg }: CompleteJoint): (rotations: Float64Array, at: number) => boolean {
  if (!turnsFreely(kind)) {
    const range = limitsDeg.axis;
    return (rotations, at) => {
      if (range === null) return true;
      const w = rotations[at]!;
      const along = rotations[at + 1]! * axis[0] + rotations[at + 2]! * axis[1] + rotations[at + 3]! * axis[2];
      const sign = w < 0 ? -1 : 1;
      const angle = (Math.abs(w) + Math.abs(along) < 1e-12 ? 0 : 2 * Math.atan2(sign * along, sign * w)) * DEG_PER_RAD;
      return nearestWithin(angle, range) === angle;
    };
  }
  const ranges = [limitsDeg.forward, limitsDeg.up, limitsDeg.right];
  const [f0, u0, r0] = ranges.map((range) => (range === null ? -Infinity : range[0] * RAD_PER_DEG)) as [number, number, number];
  const [f1, u1, r1] = ranges.map((range) => (range === null ? Infinity : range[1] * RAD_PER_DEG)) as [number, number, number];
  return (rotations, at) => {
    const w = rotations[at]!;
    const x = rotations[at + 1]!;
    const y = rotations[at + 2]!;
    const z = rotations[at + 3]!;
    // as in rotationVector
    const sign = w < 0 ? -1 : 1;
    const size = Math.sqrt(x * x + y * y + z * z);
    const by = size < 1e-10 ? 2 * sign : (sign * 2 * Math.atan2(size, sign * w)) / size;
    return x * by >= f0 && x * by <= f1 && y * by >= u0 && y * by <= u1 && z * by >= r0 && z * by <= r1;
  };
}

function settle(armature: CompleteArmature, { members, weights }: Group, rotations: Float64Array, flags: Uint8Array, s: number): void {
  const { joints } = armature;
  const base = s * joints.length;
  const wanted = members.map((p) => readQuat(rotations, base + p));
  if (wanted.some((q) => Number.isNaN(q[0]))) return;
  const now = members.map((p, i) => withinLimits(joints[p]!, wanted[i]!));
  if (now.every((q, i) => q === wanted[i])) return;
  const goal = wanted.reduce(multiply, IDENTITY);
  const over = wanted.map((q, i) => sizeDeg(q, now[i]!) > TOUCH_DEG);
  for (let round = 0; round < ROUNDS && members.length > 1; round++) {
    let before: Quat = IDENTITY;
    const left = rotationVector(multiply(goal, conjugate(now.reduce(multiply, IDENTITY))));
    if (length(left) * DEG_PER_RAD < TOUCH_DEG) break;
    // first as shares among those with room, at the end whatever one can take
    const open = members.map((p, i) => hasRoom(joints[p]!, now[i]!, rotate(conjugate(beforeOf(now, i)), left)));
    const sum = open.reduce((total, room, i) => (room ? total + weights[i]! : total), 0);
    if (sum <= 0) break;
    for (let i = 0; i < members.length; i++) {
      if (open[i]) {
        const joint = joints[members[i]!]!;
        const v = rotate(conjugate(before), left);
        const share = weights[i]! / sum;
        const turned = turnsFreely(joint.kind)
          ? multiply(fromRotationVector([v[0] * share, v[1] * share, v[2] * share]), now[i]!)
          : turnAbout(joint.axis, angleAbout(now[i]!, joint.axis) * DEG_PER_RAD + dotDeg(v, joint.axis) * share);
        now[i] = withinLimits(joint, turned);
      }
      before = multiply(before, now[i]!);
    }
  }
  const lost = length(rotationVector(multiply(goal, conjugate(now.reduce(multiply, IDENTITY))))) * DEG_PER_RAD;
  members.forEach((p, i) => {
    writeQuat(rotations, base + p, now[i]!);
    if (sizeDeg(wanted[i]!, now[i]!) <= TOUCH_DEG) return;
    // spreading leaves a rest of second order; what a hand could not set is not lost
    const clipped = over[i] && (members.length === 1 || lost > joints[p]!.smallestDeg / 100);
    flags[base + p]! |= clipped ? FLAG_CLIPPED : 0;
    if (members.length > 1) flags[base + p]! |= FLAG_SPREAD;
  });
}

function beforeOf(now: readonly Quat[], i: number): Quat {
  return now.slice(0, i).reduce(multiply, IDENTITY);
}

/** Whether a joint could take any part of a turn, told in its parent's axes. */
function hasRoom(joint: CompleteJoint, q: Quat, v: Vec3): boolean {
  const step = 1e-4;
  const tried = turnsFreely(joint.kind)
    ? multiply(fromRotationVector([v[0] * step, v[1] * step, v[2] * step]), q)
    : turnAbout(joint.axis, angleAbout(q, joint.axis) * DEG_PER_RAD + dotDeg(v, joint.axis) * step);
  return sizeDeg(withinLimits(joint, tried), q) > 0.05 * length(v) * step * DEG_PER_RAD;
}

function dotDeg(v: Vec3, axis: Vec3): number {
  return (v[0] * axis[0] + v[1] * axis[1] + v[2] * axis[2]) * DEG_PER_RAD;
}

function sizeDeg(a: Quat, b: Quat): number {
  return length(rotationVector(multiply(a, conjugate(b)))) * DEG_PER_RAD;
}

/** Sources between which the performer's bend is shared by rule (`motion/jointRotations.ts`). */
const ONE_BEND: Readonly<Record<string, string>> = { spine: 'trunk', chest: 'trunk', neck: 'head', head: 'head' };

function groupsOf({ joints, bones }: CompleteArmature, follows: readonly Follow[]): readonly Group[] {
  const groups: { members: number[]; weights: number[] }[] = [];
  const groupOf = new Map<number, { members: number[]; weights: number[] }>();
  joints.forEach((joint, p) => {
    const up = joint.parentIndex;
    if (up < 0 || !((sameBend(follows[up]!, follows[p]!) && sameSense(joints[up]!, joint)) || sameLine(joints[up]!, joint, bones[up]!.along, bones[up]!.lengthMm))) return;
    let group = groupOf.get(up);
    if (group === undefined) {
      group = { members: [up], weights: [follows[up]!.share] };
      groupOf.set(up, group);
      groups.push(group);
    }
    // a fork of two equal links (two tails) stays with the first
    if (group.members.at(-1) !== up) return;
    group.members.push(p);
    group.weights.push(follows[p]!.share);
    groupOf.set(p, group);
  });
  return groups;
}

function sameBend(a: Follow, b: Follow): boolean {
  const [from, to] = [a.drive.from, b.drive.from];
  return from !== null && to !== null && (ONE_BEND[from] ?? from) === (ONE_BEND[to] ?? to);
}

/** Bending one way: a knee and a heel joint that folds against it have one source, but make different moves. */
function sameSense(a: CompleteJoint, b: CompleteJoint): boolean {
  if (turnsFreely(a.kind) || turnsFreely(b.kind)) return true;
  return a.axis[0] * b.axis[0] + a.axis[1] * b.axis[1] + a.axis[2] * b.axis[2] > Math.cos(3 * RAD_PER_DEG);
}

/** Both of one axis, about one line: parallel within 3°, the second beside the first's axis by no more than a tenth of the bone. */
function sameLine(a: CompleteJoint, b: CompleteJoint, along: Vec3, lengthMm: number): boolean {
  if (turnsFreely(a.kind) || turnsFreely(b.kind)) return false;
  if (Math.abs(a.axis[0] * b.axis[0] + a.axis[1] * b.axis[1] + a.axis[2] * b.axis[2]) < Math.cos(3 * RAD_PER_DEG)) return false;
  const place = [0, 1, 2].map((c) => along[c]! * lengthMm * b.at + b.offsetMm[c]!) as unknown as Vec3;
  const on = place[0] * a.axis[0] + place[1] * a.axis[1] + place[2] * a.axis[2];
  return length([place[0] - on * a.axis[0], place[1] - on * a.axis[1], place[2] - on * a.axis[2]]) <= lengthMm / 10;
}
