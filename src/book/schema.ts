/**
 * What a book may hold, field by field, as the schema that every book passes on its way in and out.
 *
 * Unknown fields are refused rather than dropped: a field we do not know is somebody's work, and dropping it at
 * the next save would lose it without a word. Each `error` text says what is allowed (see `refusal.ts`).
 *
 * When the shape changes: raise BOOK_VERSION, add a numbered migration (`migrations.ts`), keep the old fixture.
 */
import { z } from './zod.ts';
import { NudgebookError } from '../errors.ts';
import { SMOOTHERS } from '../motion/smoothing.ts';
import { SETTING_LIMITS, STEP_HOLDS } from '../plan/settings.ts';
import { MODEL_SIZES } from '../pose/track.ts';
import type { Armature } from '../puppet/armature.ts';
import { checkArmature } from '../puppet/parseArmature.ts';
import { correctionsSchema } from './correctionsSchema.ts';
import { poiseSchema } from './poiseSchema.ts';
import { puppetSchema } from './puppetSchema.ts';
import { fields, numberFrom, oneOf, textUpTo, wholeFrom } from './schemaParts.ts';
import { timingSchema, timingVersionsSchema } from './timingSchema.ts';

/** Longest title and file name, in UTF-16 units; chosen to fit a line, common sense, no source. */
export const TITLE_MAX_CHARS = 200;
/** Longest note on one step, in UTF-16 units. */
export const NOTE_MAX_CHARS = 10_000;
/** Highest step number; over eleven hours of film on ones at 24 a second. */
export const STEP_MAX = 1_000_000;

function positive(unit: string) {
  const error = `a number above 0 (${unit})`;
  return z.number({ error }).positive({ error });
}

function momentOrNull() {
  const error = 'seconds from 0 up, or null for the end of the take';
  return z.number({ error }).min(0, { error }).nullable();
}

const rateSchema = z.discriminatedUnion(
  'kind',
  [
    fields({ kind: z.literal('constant'), fps: positive('frames a second') }),
    fields({
      kind: z.literal('variable'),
      minFps: positive('frames a second'),
      medianFps: positive('frames a second'),
      maxFps: positive('frames a second'),
    }),
    fields({ kind: z.literal('unknown') }),
  ],
  { error: 'a rate verdict whose kind is constant, variable or unknown' },
);

/**
 * An address on the app's own origin: path segments only, so that no book can make the app fetch from elsewhere
 * (no scheme, no leading slash, no `..`, no query).
 */
const OWN_ADDRESS = /^[A-Za-z0-9_-][A-Za-z0-9._-]*(\/[A-Za-z0-9_-][A-Za-z0-9._-]*)*$/;
const ADDRESS_ALLOWED = 'the relative address of a bundled clip such as reference-clips/one-leg-reach.webm, or null';
const HASH_ALLOWED = 'a content hash of 8 to 128 lower-case hex digits';

export const takeSchema = fields({
  name: textUpTo(1000),
  sizeBytes: wholeFrom(1, Number.MAX_SAFE_INTEGER),
  hash: z.string({ error: HASH_ALLOWED }).regex(/^[0-9a-f]{8,128}$/, { error: HASH_ALLOWED }),
  widthPx: wholeFrom(1, 100_000),
  heightPx: wholeFrom(1, 100_000),
  durationS: z.number({ error: 'seconds from 0 up' }).min(0, { error: 'seconds from 0 up' }),
  frames: wholeFrom(1, Number.MAX_SAFE_INTEGER),
  rate: rateSchema,
  address: z.string({ error: ADDRESS_ALLOWED }).regex(OWN_ADDRESS, { error: ADDRESS_ALLOWED }).nullable(),
});

// Each field alone is checked here. That the in point lies before the out point is the planner's to say
// ('bad-settings'): a book with the two crossed still opens, so that the person can put it right in it.
const settingsSchema = fields({
  inS: momentOrNull(),
  outS: momentOrNull(),
  captureFactor: numberFrom(SETTING_LIMITS.captureFactor.min, SETTING_LIMITS.captureFactor.max),
  mirror: z.boolean({ error: 'true or false' }),
  cutoffHz: numberFrom(SETTING_LIMITS.cutoffHz.min, SETTING_LIMITS.cutoffHz.max, 'Hz'),
  smoother: oneOf(SMOOTHERS),
  rate: numberFrom(SETTING_LIMITS.rate.min, SETTING_LIMITS.rate.max, 'exposures a second'),
  on: oneOf(STEP_HOLDS),
  timeScale: numberFrom(SETTING_LIMITS.timeScale.min, SETTING_LIMITS.timeScale.max),
});

// What an armature is, is said in one place; only its sentence is passed on from there.
const armatureSchema = z.unknown().transform((value, context): Armature => {
  try {
    return checkArmature(value);
  } catch (thrown) {
    if (!(thrown instanceof NudgebookError)) throw thrown;
    context.addIssue({ code: 'custom', message: 'an armature', params: { sentence: thrown.message } });
    return z.NEVER;
  }
});

const stepsAllowed = 'a list of step numbers, rising, none twice';
const shotStepsSchema = z
  .array(wholeFrom(1, STEP_MAX), { error: stepsAllowed })
  .refine((steps) => steps.every((step, i) => i === 0 || step > (steps[i - 1] ?? 0)), { error: stepsAllowed });

const stepKey = `a step number from 1 to ${STEP_MAX}`;
const notesAllowed = 'an object of notes by step number';
const notesSchema = z
  .unknown()
  // A record schema skips a key named __proto__ without a word; here it is refused like any other wrong key.
  .refine((notes) => typeof notes !== 'object' || notes === null || !Object.hasOwn(notes, '__proto__'), {
    error: notesAllowed,
  })
  .pipe(
    z.record(
      z
        .string({ error: stepKey })
        .regex(/^[1-9]\d*$/, { error: stepKey })
        .refine((key) => Number(key) <= STEP_MAX, { error: stepKey }),
      textUpTo(NOTE_MAX_CHARS),
      { error: notesAllowed },
    ),
  );

export const bookSchema = fields({
  format: z.literal('nudgebook', { error: '"nudgebook"' }),
  version: z.literal(3, { error: '3' }),
  title: textUpTo(TITLE_MAX_CHARS),
  take: takeSchema.nullable(),
  model: oneOf(MODEL_SIZES),
  settings: settingsSchema,
  corrections: correctionsSchema,
  armature: armatureSchema.nullable(),
  puppet: puppetSchema,
  timing: timingSchema,
  timingVersions: timingVersionsSchema,
  poise: poiseSchema,
  shotSteps: shotStepsSchema,
  notes: notesSchema,
});
