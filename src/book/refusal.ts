/**
 * Turns what a schema found wrong into the sentence a person reads: which field, which value, what is allowed.
 *
 * Every schema in this folder puts the allowed thing into its `error` text ("a number from 1 to 240"), so the
 * sentences are made in one place and all read alike. A part that has a reader of its own (the armature) gives its
 * own sentence instead, in the finding's `params.sentence`.
 */
import type { z } from './zod.ts';
import { NudgebookError, type ErrorCode } from '../errors.ts';

/** Longest piece of a wrong value that is quoted, in characters. */
const QUOTE_CHARS = 60;

/** A value as it may stand in a sentence: JSON where it can be written so, shortened. */
export function quoted(value: unknown): string {
  const text =
    typeof value === 'number' || typeof value === 'bigint' || typeof value === 'function' || typeof value === 'symbol'
      ? String(value)
      : (jsonOrNull(value) ?? Object.prototype.toString.call(value));
  return text.length > QUOTE_CHARS ? `${text.slice(0, QUOTE_CHARS)}…` : text;
}

function jsonOrNull(value: unknown): string | null {
  try {
    return JSON.stringify(value) ?? null;
  } catch {
    // A value that JSON cannot write (a ring, a bigint inside) is named by its type instead.
    return null;
  }
}

/** A path as a person would write it: `settings.rate`, `shotSteps[2]`, `notes["x"]`. */
export function fieldName(path: readonly PropertyKey[]): string {
  let name = '';
  for (const part of path) {
    if (typeof part === 'number') name += `[${part}]`;
    else if (typeof part === 'string' && /^[A-Za-z_]\w*$/.test(part)) name += name === '' ? part : `.${part}`;
    else name += `[${JSON.stringify(String(part))}]`;
  }
  return name;
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  let value = root;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

/**
 * The error for a value that a schema refused. The first finding is spelled out, the others are counted.
 *
 * @param code code of the error
 * @param what what the value was meant to be, with its article: `the book`, `the track`
 * @param tip what to do about it
 * @param found the schema's findings
 * @param value the value that was refused, to quote from
 */
export function refusal(
  code: ErrorCode,
  what: string,
  tip: string,
  found: z.ZodError,
  value: unknown,
): NudgebookError {
  const issues = found.issues;
  const first = issues[0];
  if (first === undefined) return new NudgebookError(code, `Something in ${what} is not allowed.`, tip, found);
  const more = issues.length > 1 ? ` (${issues.length - 1} more like this.)` : '';
  return new NudgebookError(code, `${findingSentence(what, first, value)}${more}`, tip, found);
}

function findingSentence(what: string, issue: z.core.$ZodIssue, value: unknown): string {
  const place = issue.path.length === 0 ? what : `the field ${fieldName(issue.path)} of ${what}`;
  if (issue.code === 'unrecognized_keys') {
    const names = issue.keys.map((key) => fieldName([...issue.path, key])).join(', ');
    return capital(`${what} has a field Nudgebook does not know: ${names}. Allowed is ${issue.message}.`);
  }
  if (issue.code === 'invalid_key') {
    const key = issue.path.at(-1);
    const allowed = issue.issues[0]?.message ?? issue.message;
    return capital(`the field ${fieldName(issue.path.slice(0, -1))} of ${what} has the key ${quoted(key)}; allowed is ${allowed}.`);
  }
  if (issue.code === 'custom' && typeof issue.params?.['sentence'] === 'string') {
    return capital(`${place} cannot be read. ${issue.params['sentence']}`);
  }
  const wrong = valueAt(value, issue.path);
  if (wrong === undefined && issue.path.length > 0) return capital(`${place} is missing; allowed is ${issue.message}.`);
  return capital(`${place} is ${quoted(wrong)}; allowed is ${issue.message}.`);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
