/**
 * Fills in everything that an armature leaves open. Only names, lengths and what hangs on what must be there.
 *
 * Defaults, in short (each of our choice where no source is named):
 * - A bone's direction: by its name (trunk up, arms and legs down, feet forward), else on in its parent's direction.
 * - A joint: at the end of its parent bone; hips at the pelvis' start, beside the middle by a fifth of the thigh; shoulders
 *   without a clavicle beside the chest's end by two thirds of the upper arm. Kind: the performer's of that name, else ball.
 * - A hinge's axis: to the right; a knee's to the left, so that bending counts positive. A swivel's: along the bone, upward.
 * - Mass: what `totalMassG` leaves after given masses, shared by published proportions (`bodyShares.ts`). Bones that are no
 *   part of a human body weigh by their volume. Without a total: a person's 73 kg by the cube of the heights (1741 mm).
 * - Radius: by the part of the body (`bodyShares.ts`), else an eighth of the bone's length. No limits. Smallest move and slack by kind (`kinds.ts`).
 * - Feet (by name or source): a plain sole, tied down where one may.
 */
import { JOINT_NAMES, PERFORMER_KIND, type JointName } from '../motion/joints.ts';
import { scale, unit } from '../numeric/vector3.ts';
import type { Armature, Bone, Drive, Joint, PuppetKind, Triple } from './armature.ts';
import { PART_RADIUS, partOfJoint, partOfName, sideOfName, type BodyPart } from './bodyShares.ts';
import type { CompleteArmature, CompleteBone, CompleteDrive, CompleteJoint } from './complete.ts';
import { soleOf } from './humanBody.ts';
import { DEFAULT_SLACK_DEG, DEFAULT_SMALLEST_DEG, DEFAULT_SMALLEST_TURNS } from './kinds.ts';
import { shareMasses } from './shareMasses.ts';
import { restMeasures } from './restMeasures.ts';
import { openingOfTurns, SCREW_REACH_DEG } from './screw.ts';

const done = new WeakMap<Armature, CompleteArmature>();

/**
 * The armature with nothing left open; remembered for each document by identity.
 *
 * @param armature a document that `checkArmature` passes
 */
export function completeArmature(armature: Armature): CompleteArmature {
  let complete = done.get(armature);
  if (complete === undefined) {
    complete = fill(armature);
    done.set(armature, complete);
  }
  return complete;
}

function fill(armature: Armature): CompleteArmature {
  const order = parentsFirst(armature.joints);
  const boneOf = new Map(armature.bones.map((bone) => [bone.name, bone]));
  const index = new Map(order.map((joint, p) => [joint.child, p]));
  const drives = order.map((joint) => completeDrive(joint, armature.drives));
  const parts = order.map((joint, p): BodyPart | null => {
    const from = drives[p]!.from;
    return partOfName(joint.child) ?? (from === null ? null : partOfJoint(from));
  });
  const bones: CompleteBone[] = [];
  order.forEach((joint, p) => {
    const bone = boneOf.get(joint.child)!;
    bones.push(completeBone(bone, parts[p]!, joint.parent === null ? null : bones[index.get(joint.parent)!]!));
  });
  const joints = order.map((joint, p) => completeJoint(
    joint, bones[p]!, parts[p]!, drives[p]!.from, joint.parent === null ? -1 : index.get(joint.parent)!, joint.parent === null ? null : parts[index.get(joint.parent)!]!,
  ));
  const { rootHeightMm, heightMm } = restMeasures(bones, joints);
  const masses = shareMasses(order.map((joint) => boneOf.get(joint.child)!), bones, parts, armature.totalMassG, heightMm);
  const weighed = bones.map((bone, p): CompleteBone => ({ ...bone, massG: masses[p]!.massG, massAt: masses[p]!.massAt }));
  return {
    name: armature.name, notes: armature.notes ?? '', bones: weighed, joints, drives,
    totalMassG: weighed.reduce((sum, { massG }) => sum + massG, 0), rootHeightMm, heightMm,
  };
}

/** The joints in the document's order, but none before the one that carries it. */
function parentsFirst(joints: readonly Joint[]): readonly Joint[] {
  const out: Joint[] = [];
  const placed = new Set<string | null>([null]);
  let left = [...joints];
  while (left.length > 0) {
    const ready = left.find((joint) => placed.has(joint.parent));
    if (ready === undefined) break;
    out.push(ready);
    placed.add(ready.child);
    left = left.filter((joint) => joint !== ready);
  }
  return out;
}

function completeDrive(joint: Joint, drives: readonly Drive[] = []): CompleteDrive {
  const said = drives.find((drive) => drive.joint === joint.name);
  const own = JOINT_NAMES.find((name) => name === joint.name) ?? null;
  const offset = said?.offsetDeg ?? {};
  return {
    joint: joint.name, from: said === undefined ? own : said.from, weight: said?.weight ?? 1, gain: said?.gain ?? 1,
    offsetDeg: { axis: offset.axis ?? 0, forward: offset.forward ?? 0, up: offset.up ?? 0, right: offset.right ?? 0 },
    delaySteps: said?.delaySteps ?? 0,
  };
}

const DOWNWARD: readonly (BodyPart | null)[] = ['upperArm', 'forearm', 'hand', 'thigh', 'shank'];

function directionOf(bone: Bone, part: BodyPart | null, parent: CompleteBone | null): Triple {
  if (bone.along !== undefined) return unit(bone.along) ?? [0, 1, 0];
  if (part === 'foot') return [1, 0, 0];
  if (part === 'clavicle') return [0, 0, sideOfName(bone.name) === 'left' ? -1 : 1];
  if (DOWNWARD.includes(part)) return [0, -1, 0];
  if (part !== null || parent === null) return [0, 1, 0];
  return parent.along;
}

function completeBone(bone: Bone, part: BodyPart | null, parent: CompleteBone | null): CompleteBone {
  const { name, lengthMm } = bone;
  const sole = bone.sole === undefined ? (part === 'foot' ? soleOf(lengthMm, Math.round(lengthMm * 3.5) / 10) : null) : bone.sole;
  return {
    name, lengthMm, along: directionOf(bone, part, parent), massG: 0, massAt: 0.5, radiusMm: bone.radiusMm ?? lengthMm * (part === null ? 1 / 8 : PART_RADIUS[part]),
    sole, tieDown: bone.tieDown ?? sole !== null, notes: bone.notes ?? '',
  };
}

function completeJoint(
  joint: Joint, bone: CompleteBone, part: BodyPart | null, from: JointName | null, parentIndex: number, parentPart: BodyPart | null,
): CompleteJoint {
  const kind: PuppetKind = joint.kind ?? (from === null ? 'ball' : PERFORMER_KIND[from]);
  const hip = part === 'thigh' && parentPart === 'pelvis';
  const limits = joint.limitsDeg ?? {};
  const said = joint.screw;
  const screw = kind !== 'screw' || said === undefined ? null : {
    pitchMm: said.pitchMm, leverMm: said.leverMm, starts: said.starts ?? 1, squareAtDeg: said.squareAtDeg ?? 0,
    smallestTurns: said.smallestTurns ?? DEFAULT_SMALLEST_TURNS,
  };
  return {
    name: joint.name, parentIndex, parent: joint.parent, child: joint.child,
    at: joint.at ?? (hip ? 0 : 1),
    offsetMm: joint.offsetMm ?? beside(bone, hip, part === 'upperArm' && parentPart === 'chest'),
    kind,
    axis: axisOf(joint, kind, bone, from, part),
    limitsDeg: {
      axis: limits.axis ?? (screw === null ? null : [screw.squareAtDeg - SCREW_REACH_DEG, screw.squareAtDeg + SCREW_REACH_DEG]),
      forward: limits.forward ?? null, up: limits.up ?? null, right: limits.right ?? null,
    },
    smallestDeg: screw === null ? joint.smallestDeg ?? DEFAULT_SMALLEST_DEG[kind] : openingOfTurns(screw, screw.smallestTurns) - screw.squareAtDeg,
    slackDeg: joint.slackDeg ?? DEFAULT_SLACK_DEG[kind],
    screw, notes: joint.notes ?? '',
  };
}

function beside(bone: CompleteBone, hip: boolean, shoulder: boolean): Triple {
  const side = sideOfName(bone.name);
  if (side === null || !(hip || shoulder)) return [0, 0, 0];
  return [0, 0, (side === 'left' ? -1 : 1) * bone.lengthMm * (hip ? 0.2 : 0.67)];
}

function axisOf(joint: Joint, kind: PuppetKind, bone: CompleteBone, from: JointName | null, part: BodyPart | null): Triple {
  if (joint.axis !== undefined) return unit(joint.axis) ?? [0, 0, 1];
  if (kind === 'hinge' || kind === 'screw') {
    const knee = from === null ? part === 'shank' : from.endsWith('Knee');
    return [0, 0, knee ? -1 : 1];
  }
  const [x, y, z] = bone.along;
  const backward = y !== 0 ? y < 0 : x !== 0 ? x < 0 : z < 0;
  return backward ? scale(bone.along, -1).map((v) => v + 0) as unknown as Triple : bone.along;
}
