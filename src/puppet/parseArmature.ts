/**
 * An armature from a file: strict, because a joint that is silently dropped is a joint that the animator will miss on the
 * set. Messages name the field and say what is allowed there.
 */
import { z } from 'zod';
import { NudgebookError } from '../errors.ts';
import { JOINT_NAMES, type JointName } from '../motion/joints.ts';
import type { Armature } from './armature.ts';

/** Longest text that is read at all, characters; a full armature has about 1,200. */
export const ARMATURE_TEXT_LIMIT = 100_000;

const KINDS = ['hinge', 'ball', 'swivel'] as const;
const NAME_LENGTH = 100;
/** Tallest and shortest puppet believed, mm: from a thumb to twice a man. Anything else is a slip of the unit. Our choice. */
const HEIGHT_MM = { min: 10, max: 4000 };

const ALLOWED = {
  format: 'the text "nudgebook-armature"',
  version: 'the number 1',
  name: `a text of 1 to ${NAME_LENGTH} characters`,
  heightMm: `a number from ${HEIGHT_MM.min} to ${HEIGHT_MM.max} (millimetres)`,
  joints: `a list of 1 to ${JOINT_NAMES.length} joints`,
  joint: 'an object with "name" and "kind"',
  jointName: `one of ${JOINT_NAMES.join(', ')}`,
  jointKind: `one of ${KINDS.join(', ')}`,
} as const;

const schema = z.strictObject({
  format: z.literal('nudgebook-armature', ALLOWED.format),
  version: z.literal(1, ALLOWED.version),
  name: z.string(ALLOWED.name).trim().min(1, ALLOWED.name).max(NAME_LENGTH, ALLOWED.name),
  heightMm: z.number(ALLOWED.heightMm).min(HEIGHT_MM.min, ALLOWED.heightMm).max(HEIGHT_MM.max, ALLOWED.heightMm),
  joints: z.array(
    z.strictObject({ name: z.enum(JOINT_NAMES, ALLOWED.jointName), kind: z.enum(KINDS, ALLOWED.jointKind) }),
    ALLOWED.joints,
  ).min(1, ALLOWED.joints).max(JOINT_NAMES.length, ALLOWED.joints),
});

/**
 * Reads an armature from the text of a JSON file.
 *
 * @throws NudgebookError `bad-armature`
 */
export function parseArmature(text: string): Armature {
  if (text.length > ARMATURE_TEXT_LIMIT) {
    throw bad(`it has ${text.length} characters; the most is ${ARMATURE_TEXT_LIMIT}`);
  }
  let value: unknown;
  try {
    // A byte order mark is not JSON, but editors write it.
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    throw bad(`it is not JSON (${cause instanceof Error ? cause.message : String(cause)})`, cause);
  }
  return checkArmature(value);
}

/**
 * An armature from already parsed data.
 *
 * @throws NudgebookError `bad-armature`, naming the field and what is allowed in it
 */
export function checkArmature(value: unknown): Armature {
  const result = schema.safeParse(value);
  if (!result.success) {
    const issue = result.error.issues[0];
    throw bad(issue === undefined ? 'it does not have the right form' : describe(issue, value));
  }
  const seen = new Set<JointName>();
  result.data.joints.forEach((joint, index) => {
    if (seen.has(joint.name)) throw bad(`joints[${index}].name repeats ${joint.name}; each joint may stand there once`);
    seen.add(joint.name);
  });
  return result.data;
}

function describe(issue: z.core.$ZodIssue, value: unknown): string {
  const field = fieldName(issue.path);
  if (issue.code === 'unrecognized_keys') {
    const known = field === '' ? 'format, version, name, heightMm, joints' : 'name, kind';
    const where = field === '' ? '' : ` in ${field}`;
    return `it has the unknown field ${issue.keys.map((key) => `“${short(key)}”`).join(', ')}${where}; known are ${known}`;
  }
  if (field === '') return 'it must be an object with format, version, name, heightMm and joints';
  const allowed = Object.values<string>(ALLOWED).includes(issue.message) ? issue.message : ALLOWED.joint;
  return `${field} must be ${allowed}, and is ${show(valueAt(value, issue.path))}`;
}

function fieldName(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (name, key) => (typeof key === 'number' ? `${name}[${key}]` : name === '' ? String(key) : `${name}.${String(key)}`), '',
  );
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (v, key) => (typeof v === 'object' && v !== null ? (v as Record<PropertyKey, unknown>)[key] : undefined), value,
  );
}

function show(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'string') return `“${short(value)}”`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' && value !== null ? 'an object' : String(value);
}

function short(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

function bad(what: string, cause?: unknown): NudgebookError {
  return new NudgebookError(
    'bad-armature', `The armature can’t be used: ${what}.`,
    'Correct the file and open it again, or go on with the standard figure.', cause,
  );
}
