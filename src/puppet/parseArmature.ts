/**
 * An armature from a file: strict, because a joint that is silently dropped is a joint that the animator will miss on the
 * set. Messages name the field and say what is allowed there.
 */
import type { z } from 'zod';
import { NudgebookError } from '../errors.ts';
import type { Armature } from './armature.ts';
import { armatureSchema } from './armatureSchema.ts';
import { structureFault } from './checkStructure.ts';
import { armatureFromV1, parseV1 } from './migrateArmature.ts';

/** Longest text that is read at all, characters: a puppet of 120 bones with all fields has about 60,000. */
export const ARMATURE_TEXT_LIMIT = 500_000;

/**
 * Reads an armature from the text of a JSON file; one of version 1 becomes one of version 2.
 *
 * @throws NudgebookError `bad-armature`
 */
export function parseArmature(text: string): Armature {
  if (text.length > ARMATURE_TEXT_LIMIT) {
    throw bad(`the file has ${text.length} characters; the most is ${ARMATURE_TEXT_LIMIT}`);
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
 * An armature from already parsed data, brought to this version.
 *
 * @throws NudgebookError `bad-armature`, naming the field and what is allowed in it
 */
export function checkArmature(value: unknown): Armature {
  if (typeof value === 'object' && value !== null && 'version' in value && value.version === 1) {
    const old = parseV1(value);
    if (!old.success) throw refusal(old.error, value);
    return armatureFromV1(old.data);
  }
  const result = armatureSchema.safeParse(value);
  if (!result.success) throw refusal(result.error, value);
  const fault = structureFault(result.data);
  if (fault !== null) throw bad(fault);
  return result.data;
}

function refusal(error: z.ZodError, value: unknown): NudgebookError {
  const issue = error.issues[0];
  return bad(issue === undefined ? 'it does not have the right form' : describe(issue, value), error);
}

function describe(issue: z.core.$ZodIssue, value: unknown): string {
  const field = fieldName(issue.path, value);
  if (issue.code === 'unrecognized_keys') {
    const where = field === '' ? '' : ` in ${field}`;
    const fieldsThere = issue.message.replace(/^an object with the fields /, '');
    return `it has the unknown field ${issue.keys.map((key) => `“${short(key)}”`).join(', ')}${where}; known are ${fieldsThere}`;
  }
  if (field === '') return `it must be ${issue.message}`;
  return `${field} must be ${issue.message}, and is ${show(valueAt(value, issue.path))}`;
}

/** The path as written in the file, with the name of the bone or joint that it leads through. */
function fieldName(path: readonly PropertyKey[], value: unknown): string {
  let said = '';
  let whose = '';
  path.forEach((key, depth) => {
    said += typeof key === 'number' ? `[${key}]` : said === '' ? String(key) : `.${String(key)}`;
    if (typeof key !== 'number' || depth !== 1) return;
    const there = valueAt(value, path.slice(0, 2));
    const name = typeof there === 'object' && there !== null ? Object.entries(there).find(([k]) => k === 'name' || k === 'joint')?.[1] : undefined;
    if (typeof name === 'string' && path.length > 2 && path[2] !== 'name') whose = ` (${short(name)})`;
  });
  return said + whose;
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (v, key) => (typeof v === 'object' && v !== null ? (v as Record<PropertyKey, unknown>)[key] : undefined), value,
  );
}

function show(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'string') return `“${short(value)}”`;
  if (Array.isArray(value) && value.length === 0) return 'an empty list';
  if (Array.isArray(value)) return value.length <= 4 && value.every((v) => typeof v === 'number') ? `[${value.join(', ')}]` : `a list of ${value.length}`;
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
