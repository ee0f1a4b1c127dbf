/** The few shapes that all schemas of this folder are made of; each says what is allowed (see `refusal.ts`). */
import { z } from './zod.ts';

/** An object with exactly these fields; the message lists them. */
export function fields<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  return z.strictObject(shape, { error: `an object with the fields ${Object.keys(shape).join(', ')}` });
}

export function numberFrom(min: number, max: number, unit = '') {
  const error = `a number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error }).min(min, { error }).max(max, { error });
}

export function wholeFrom(min: number, max: number) {
  const error = `a whole number from ${min} to ${max}`;
  return z.int({ error }).min(min, { error }).max(max, { error });
}

export function textUpTo(maxChars: number) {
  const error = `a text of at most ${maxChars} characters`;
  return z.string({ error }).max(maxChars, { error });
}

export function oneOf<const Values extends readonly (string | number)[]>(values: Values) {
  return z.literal(values, { error: `one of ${values.join(', ')}` });
}
