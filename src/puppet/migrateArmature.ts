/**
 * Armatures of version 1 named joints of the performer and a height; they become version 2 with the bones of the standard
 * figure at that height. A joint that was left out was rigid: the bone it would have turned becomes one with the bone that
 * carries it, so what hangs on it keeps its place.
 */
import { z } from 'zod';
import { JOINT_NAMES, JOINT_PARENT, type JointName } from '../motion/joints.ts';
import type { Armature, Bone, Joint, Triple } from './armature.ts';
import { BONE_OF_JOINT, humanBody, type HumanMeasures, PROPORTIONS } from './humanBody.ts';

const KINDS = ['hinge', 'ball', 'swivel'] as const;
const NAME = 'a text of 1 to 100 characters';
const HEIGHT = 'a number from 10 to 4000 (millimetres)';
const JOINTS = `a list of 1 to ${JOINT_NAMES.length} joints`;

const schema = z.strictObject({
  format: z.literal('nudgebook-armature', { error: 'the text "nudgebook-armature"' }),
  version: z.literal(1),
  name: z.string(NAME).trim().min(1, NAME).max(100, NAME),
  heightMm: z.number(HEIGHT).min(10, HEIGHT).max(4000, HEIGHT),
  joints: z.array(
    z.strictObject({
      name: z.enum(JOINT_NAMES, `one of ${JOINT_NAMES.join(', ')}`), kind: z.enum(KINDS, `one of ${KINDS.join(', ')}`),
    }, { error: 'an object with the fields name, kind' }),
    JOINTS,
  ).min(1, JOINTS).max(JOINT_NAMES.length, JOINTS),
}, { error: 'an object with the fields format, version, name, heightMm, joints' }).superRefine(({ joints }, context) => {
  joints.forEach(({ name }, i) => {
    if (joints.findIndex((other) => other.name === name) < i) {
      context.addIssue({ code: 'custom', path: ['joints', i, 'name'], message: 'a name that stands there once (it is a repetition)' });
    }
  });
});

export type ArmatureV1 = z.infer<typeof schema>;

/** Checks the form of a document of version 1. */
export function parseV1(value: unknown): z.ZodSafeParseResult<ArmatureV1> {
  return schema.safeParse(value);
}

/** The same puppet as a document of version 2. */
export function armatureFromV1(old: ArmatureV1): Armature {
  const measures = Object.fromEntries(
    Object.entries(PROPORTIONS).map(([key, share]) => [key, round(share * old.heightMm)]),
  ) as unknown as HumanMeasures;
  const whole = humanBody(measures);
  const places = restPlaces(whole);
  const kinds = new Map(old.joints.map(({ name, kind }) => [name, kind]));
  const bones: Bone[] = [];
  const joints: Joint[] = [];
  const roots = JOINT_NAMES.filter((name) => kinds.has(name) && carrier(name, kinds) === undefined);
  // Several parts may hang on nothing; a stand carries them, which no performer moves.
  const stand = roots.length === 1 ? null : 'stand';
  if (stand !== null) {
    bones.push({ name: stand, lengthMm: round(measures.pelvis), along: [0, 1, 0] });
    joints.push({ name: stand, parent: null, child: stand, kind: 'ball' });
  }
  for (const name of JOINT_NAMES) {
    const kind = kinds.get(name);
    if (kind === undefined) continue;
    const up = carrier(name, kinds);
    const parent = up === undefined ? stand : BONE_OF_JOINT[up];
    const from = up === undefined ? ([0, 0, 0] as const) : places[up];
    bones.push(whole.bones.find((bone) => bone.name === BONE_OF_JOINT[name])!);
    joints.push({
      name, parent, child: BONE_OF_JOINT[name], kind,
      ...(parent === null ? {} : { at: 0, offsetMm: places[name].map((v, c) => round(v - from[c]!)) as unknown as Triple }),
    });
  }
  return { format: 'nudgebook-armature', version: 2, name: old.name, bones, joints };
}

function carrier(name: JointName, has: ReadonlyMap<JointName, unknown>): JointName | undefined {
  let up = JOINT_PARENT[name];
  while (up !== undefined && !has.has(up)) up = JOINT_PARENT[up];
  return up;
}

/** Where each joint of the standard figure lies at rest, mm from the pelvis. */
function restPlaces({ bones, joints }: Pick<Armature, 'bones' | 'joints'>): Readonly<Record<JointName, Triple>> {
  const bone = new Map(bones.map((b) => [b.name, b]));
  const starts = new Map<string, Triple>();
  const out: Partial<Record<JointName, Triple>> = {};
  for (const { name, parent, child, at = 1, offsetMm = [0, 0, 0] } of joints) {
    const carrying = parent === null ? undefined : bone.get(parent);
    const start = parent === null ? undefined : starts.get(parent);
    const place: Triple = [0, 1, 2].map((c) =>
      (start?.[c] ?? 0) + offsetMm[c]! + (carrying === undefined ? 0 : carrying.along![c]! * carrying.lengthMm * at)) as unknown as Triple;
    starts.set(child, place);
    out[name as JointName] = place;
  }
  return out as Record<JointName, Triple>;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
