/**
 * One side of the puppet made like the other, in a mirror that stands between them (Z changes its sign).
 *
 * A direction keeps forward and up. A turn is told by an axis, and a mirror turns the other way round: its forward and up
 * parts change their sign and its right part stays (R' = M·R·M, so axis' = −M·axis), and angles about it stay as they are.
 */
import { JOINT_NAMES, type JointName } from '../../../../motion/joints.ts';
import type { Armature, Bone, Drive, Joint, PerAxis, Range, Triple } from '../../../../puppet/armature.ts';

export type Side = 'left' | 'right';

/** Names begin with their side, as those of the performer do; others have none. */
export function sideOf(name: string): Side | null {
  return /^left/i.test(name) ? 'left' : /^right/i.test(name) ? 'right' : null;
}

/** The same name on the other side; a name without a side stays. */
export function otherSide(name: string): string {
  return name.replace(/^(left|right)/i, (side) => {
    const other = side.toLowerCase() === 'left' ? 'right' : 'left';
    return /^[A-Z]/.test(side) ? other[0]!.toUpperCase() + other.slice(1) : other;
  });
}

// + 0 turns a minus zero into a plain one.
const flipped = ([x, y, z]: Triple): Triple => [x, y, -z + 0];
const turnedBack = ([x, y, z]: Triple): Triple => [-x + 0, -y + 0, z];
const back = (range: Range | null): Range | null => (range === null ? null : [-range[1] + 0, -range[0] + 0]);

function mirroredLimits(limits: PerAxis<Range | null>): PerAxis<Range | null> {
  return { ...limits, ...(limits.forward === undefined ? {} : { forward: back(limits.forward) }), ...(limits.up === undefined ? {} : { up: back(limits.up) }) };
}

function mirroredBone(bone: Bone): Bone {
  return {
    ...bone,
    name: otherSide(bone.name),
    ...(bone.along === undefined ? {} : { along: flipped(bone.along) }),
    // The corners go round the other way in the mirror, so they are read backward.
    ...(bone.sole === undefined || bone.sole === null ? {} : { sole: { ...bone.sole, outlineMm: bone.sole.outlineMm.map(([f, r]) => [f, -r + 0] as const).reverse() } }),
  };
}

function mirroredJoint(joint: Joint): Joint {
  return {
    ...joint,
    name: otherSide(joint.name),
    parent: joint.parent === null ? null : otherSide(joint.parent),
    child: otherSide(joint.child),
    ...(joint.offsetMm === undefined ? {} : { offsetMm: flipped(joint.offsetMm) }),
    ...(joint.axis === undefined ? {} : { axis: turnedBack(joint.axis) }),
    ...(joint.limitsDeg === undefined ? {} : { limitsDeg: mirroredLimits(joint.limitsDeg) }),
  };
}

/** How the joint on the other side follows the performer: its other side, turned as in a mirror. */
export function mirroredDrive(drive: Drive): Drive {
  const from = drive.from === null ? null : otherSide(drive.from);
  const { offsetDeg } = drive;
  return {
    ...drive,
    joint: otherSide(drive.joint),
    from: JOINT_NAMES.find((name): name is JointName => name === from) ?? null,
    ...(offsetDeg === undefined ? {} : { offsetDeg: {
      ...offsetDeg,
      ...(offsetDeg.forward === undefined ? {} : { forward: -offsetDeg.forward + 0 }),
      ...(offsetDeg.up === undefined ? {} : { up: -offsetDeg.up + 0 }),
    } }),
  };
}

/** Each in its own place where it was, new ones at the end. */
function replaced<T>(list: readonly T[], made: readonly T[], nameOf: (item: T) => string): T[] {
  const byName = new Map(made.map((item) => [nameOf(item), item]));
  const kept = list.map((item) => byName.get(nameOf(item)) ?? item);
  const there = new Set(list.map(nameOf));
  return [...kept, ...made.filter((item) => !there.has(nameOf(item)))];
}

/**
 * @param from the side that stays; bones that only the other side has are removed with all that hangs on them
 */
export function mirrored(armature: Armature, from: Side): Armature {
  const bones = armature.bones.filter(({ name }) => sideOf(name) === from).map(mirroredBone);
  const joints = armature.joints.filter(({ child }) => sideOf(child) === from).map(mirroredJoint);
  const made = new Set(bones.map(({ name }) => name));
  const stays = (bone: string): boolean => sideOf(bone) !== otherSideOf(from) || made.has(bone);
  const names = new Set(armature.joints.filter(({ child }) => stays(child)).map(({ name }) => name));
  const drives = armature.drives?.filter(({ joint }) => names.has(joint));
  return {
    ...armature,
    bones: replaced(armature.bones.filter(({ name }) => stays(name)), bones, ({ name }) => name),
    joints: replaced(armature.joints.filter(({ child }) => stays(child)), joints, ({ child }) => child),
    ...(drives === undefined ? {} : { drives: replaced(drives, drives.filter(({ joint }) => sideOf(joint) === from).map(mirroredDrive), ({ joint }) => joint) }),
  };
}

function otherSideOf(side: Side): Side {
  return side === 'left' ? 'right' : 'left';
}
