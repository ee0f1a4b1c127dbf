/**
 * Edits of an armature, each from document to document. Bones and joints come in pairs: a joint turns the bone that starts
 * at it, so the two are named and removed together.
 */
import type { Armature, Bone, Joint } from '../../../../puppet/armature.ts';

/** The joint that turns a bone. */
export function jointOfBone(armature: Armature, bone: string): Joint | undefined {
  return armature.joints.find((joint) => joint.child === bone);
}

/** The bone that a joint turns. */
export function boneOfJoint(armature: Armature, joint: string): Bone | undefined {
  const child = armature.joints.find(({ name }) => name === joint)?.child;
  return armature.bones.find(({ name }) => name === child);
}

/** Without the fields that are `undefined`: those are the ones that have their default again. */
function without<T extends object>(value: T): T {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as T;
}

/** Changes some fields of the bone that a joint turns; `undefined` gives a field its default again. */
export function withBone(armature: Armature, joint: string, some: Partial<Bone>): Armature {
  const bone = boneOfJoint(armature, joint);
  if (bone === undefined) return armature;
  return { ...armature, bones: armature.bones.map((b) => (b === bone ? without({ ...b, ...some }) : b)) };
}

/** Changes some fields of a joint; `undefined` gives a field its default again. */
export function withJoint(armature: Armature, name: string, some: Partial<Joint>): Armature {
  return { ...armature, joints: armature.joints.map((j) => (j.name === name ? without({ ...j, ...some }) : j)) };
}

/** Gives a joint and its bone other names, everywhere they are spoken of. */
export function renamed(armature: Armature, name: string, jointName: string, boneName: string): Armature {
  const former = boneOfJoint(armature, name)?.name;
  const bone = (b: string | null): string | null => (b === former ? boneName : b);
  return {
    ...armature,
    bones: armature.bones.map((b) => (b.name === former ? { ...b, name: boneName } : b)),
    joints: armature.joints.map((j) => ({ ...j, name: j.name === name ? jointName : j.name, parent: bone(j.parent), child: bone(j.child)! })),
    ...(armature.drives === undefined ? {} : { drives: armature.drives.map((d) => (d.joint === name ? { ...d, joint: jointName } : d)) }),
  };
}

/** A name like `wanted` that neither a bone nor a joint has yet. */
export function freeName(armature: Armature, wanted: string): string {
  const taken = new Set([...armature.bones.map((b) => b.name), ...armature.joints.map((j) => j.name)]);
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? wanted : `${wanted}${n}`;
    if (!taken.has(name)) return name;
  }
}

/** A new bone at the end of the one that `joint` turns: a quarter as long, on in the same direction, moved by nothing. */
export function withPart(armature: Armature, joint: string, wanted: string): { readonly armature: Armature; readonly name: string } {
  const parent = boneOfJoint(armature, joint);
  if (parent === undefined) return { armature, name: joint };
  const name = freeName(armature, wanted);
  const bone: Bone = { name, lengthMm: Math.max(1, Math.round(parent.lengthMm / 4)), ...(parent.along === undefined ? {} : { along: parent.along }) };
  return { name, armature: { ...armature, bones: [...armature.bones, bone], joints: [...armature.joints, { name, parent: parent.name, child: name }] } };
}

/** Names of a joint and of all that hang on its bone. */
export function hangingOn(armature: Armature, joint: string): ReadonlySet<string> {
  const gone = new Set([joint]);
  for (let grew = true; grew;) {
    grew = false;
    for (const { name, parent } of armature.joints) {
      const carrier = armature.joints.find((j) => j.child === parent)?.name;
      if (carrier !== undefined && gone.has(carrier) && !gone.has(name)) {
        gone.add(name);
        grew = true;
      }
    }
  }
  return gone;
}

/** Without a joint, its bone and all that hangs on it. The joint that carries the whole puppet stays. */
export function withoutPart(armature: Armature, joint: string): Armature {
  if (armature.joints.find(({ name }) => name === joint)?.parent === null) return armature;
  const gone = hangingOn(armature, joint);
  const bones = new Set(armature.joints.filter(({ name }) => gone.has(name)).map(({ child }) => child));
  return {
    ...armature,
    bones: armature.bones.filter(({ name }) => !bones.has(name)),
    joints: armature.joints.filter(({ name }) => !gone.has(name)),
    ...(armature.drives === undefined ? {} : { drives: armature.drives.filter((d) => !gone.has(d.joint)) }),
  };
}
