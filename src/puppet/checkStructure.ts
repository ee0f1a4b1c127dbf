/**
 * What a form alone can't say about an armature: that names are single, that every bone hangs on one joint, that nothing
 * carries itself, that a thread can reach its limits.
 */
import type { Armature, Joint } from './armature.ts';
import { SCREW_REACH_DEG } from './screw.ts';

/**
 * The first fault, as a phrase that begins with the field's name; `null` where all is well.
 */
export function structureFault(armature: Armature): string | null {
  const { bones, joints, drives = [] } = armature;
  const bonesAt = new Map<string, number>();
  for (const [i, { name }] of bones.entries()) {
    if (bonesAt.has(name)) return `bones[${i}].name repeats “${name}”; each bone needs a name of its own`;
    bonesAt.set(name, i);
  }
  const names = new Set<string>();
  const carriedBy = new Map<string, Joint>();
  let root: string | null = null;
  for (const [i, joint] of joints.entries()) {
    const field = `joints[${i}]`;
    const who = `joint “${joint.name}”`;
    if (names.has(joint.name)) return `${field}.name repeats “${joint.name}”; each joint may stand there once`;
    names.add(joint.name);
    if (!bonesAt.has(joint.child)) return `${field}.child of ${who} is the unknown bone “${joint.child}”; known are ${known(bonesAt)}`;
    if (joint.parent !== null && !bonesAt.has(joint.parent)) {
      return `${field}.parent of ${who} is the unknown bone “${joint.parent}”; known are null and ${known(bonesAt)}`;
    }
    const other = carriedBy.get(joint.child);
    if (other !== undefined) return `${field}.child is “${joint.child}”, which already hangs on the joint “${other.name}”`;
    carriedBy.set(joint.child, joint);
    if (joint.parent === null) {
      if (root !== null) return `${field}.parent is null, as that of “${root}” is already; one joint alone carries the whole puppet`;
      root = joint.name;
    }
    const fault = screwFault(joint, field);
    if (fault !== null) return fault;
  }
  for (const [i, { name }] of bones.entries()) {
    if (!carriedBy.has(name)) return `bones[${i}] “${name}” hangs on no joint; add one whose child it is`;
  }
  const ring = ringOf(joints, carriedBy);
  if (ring !== null) return ring;
  if (root === null) return 'joints has none whose parent is null; one joint must carry the whole puppet';
  const driven = new Set<string>();
  for (const [i, { joint }] of drives.entries()) {
    if (!names.has(joint)) return `drives[${i}].joint is the unknown joint “${joint}”; known are ${known(names)}`;
    if (driven.has(joint)) return `drives[${i}].joint repeats “${joint}”; each joint has one drive`;
    driven.add(joint);
  }
  return null;
}

function screwFault(joint: Joint, field: string): string | null {
  const { screw, name } = joint;
  if (joint.kind !== 'screw') return screw === undefined ? null : `${field}.screw of joint “${name}” stands beside the kind ${joint.kind ?? 'ball'}; it belongs to the kind screw`;
  if (screw === undefined) return `${field}.screw of joint “${name}” is missing; a screw needs pitchMm and leverMm`;
  const limits = joint.limitsDeg?.axis;
  if (limits === undefined || limits === null) return null;
  const square = screw.squareAtDeg ?? 0;
  if (limits[0] >= square - SCREW_REACH_DEG && limits[1] <= square + SCREW_REACH_DEG) return null;
  return `${field}.limitsDeg.axis of joint “${name}” is ${limits[0]} to ${limits[1]}; a thread reaches ${SCREW_REACH_DEG}° to either side of squareAtDeg (${square})`;
}

function ringOf(joints: readonly Joint[], carriedBy: ReadonlyMap<string, Joint>): string | null {
  for (const [i, joint] of joints.entries()) {
    const path = [joint.child];
    let up: Joint | undefined = joint;
    while (up !== undefined && up.parent !== null && path.length <= joints.length + 1) {
      if (path.includes(up.parent)) {
        const ring = [...path.slice(path.indexOf(up.parent)), up.parent].reverse();
        return `joints[${i}].parent makes a ring: ${ring.map((name) => `“${name}”`).join(' carries ')}`;
      }
      path.push(up.parent);
      up = carriedBy.get(up.parent);
    }
  }
  return null;
}

function known(names: { keys: () => Iterable<string> }): string {
  const all = [...names.keys()];
  return all.length > 30 ? `${all.slice(0, 30).join(', ')} …` : all.join(', ');
}
