/** What a book may hold about the timing: marks, holds, pauses, and timings kept under a name. */
import { STEP_HOLDS, SETTING_LIMITS } from '../plan/settings.ts';
import { JOINT_NAMES } from '../motion/joints.ts';
import { ALIVE_PATTERNS, ALIVE_STRENGTHS, DEFAULT_MOST_STILL, DEFAULT_TIMING, FILM_GAUGES, MARK_KINDS, MOST_STILL_LIMITS, type TimingSettings } from '../timing/timingSettings.ts';
import { fields, numberFrom, oneOf, textUpTo, wholeFrom } from './schemaParts.ts';
import { NudgebookError } from '../errors.ts';
import { refusal } from './refusal.ts';
import { z } from './zod.ts';

const NAME_CHARS = 100;
const LATEST_S = 1e6;
const moment = numberFrom(0, LATEST_S, 'seconds');
const trueOrFalse = z.boolean({ error: 'true or false' });

function listOf<T extends z.core.SomeType>(of: T, most: number, what: string) {
  const error = `a list of at most ${most} ${what}`;
  return z.array(of, { error }).max(most, { error });
}

const marksAllowed = 'marks whose ids differ and whose times rise: filmS strictly, sourceS never falling';
const marks = listOf(
  fields({
    id: textUpTo(NAME_CHARS), sourceS: moment, filmS: moment, locked: trueOrFalse, kind: oneOf(MARK_KINDS), name: textUpTo(NAME_CHARS),
  }),
  10_000,
  'marks',
).refine((all) => new Set(all.map(({ id }) => id)).size === all.length
  && all.every((mark, i) => i === 0 || (mark.filmS > all[i - 1]!.filmS && mark.sourceS >= all[i - 1]!.sourceS)), { error: marksAllowed });

const spansAllowed = 'spans whose fromExposure rises';
const holdSpans = listOf(fields({ fromExposure: wholeFrom(1, 1_000_000), on: oneOf(STEP_HOLDS) }), 10_000, 'hold spans')
  .refine((all) => all.every((span, i) => i === 0 || span.fromExposure > all[i - 1]!.fromExposure), { error: spansAllowed });

export const timingSchema = fields({
  marks,
  snapJoints: listOf(oneOf(JOINT_NAMES), JOINT_NAMES.length, 'names of joints'),
  holdSpans,
  alive: fields({
    strength: oneOf(ALIVE_STRENGTHS), pattern: oneOf(ALIVE_PATTERNS), frozen: listOf(textUpTo(NAME_CHARS), 500, 'names of joints'),
    // books of before it could be set hold none
    mostStill: wholeFrom(MOST_STILL_LIMITS.min, MOST_STILL_LIMITS.max).default(DEFAULT_MOST_STILL),
  }),
  gauge: oneOf(FILM_GAUGES).nullable(),
});

export const timingVersionsSchema = listOf(
  fields({
    id: textUpTo(NAME_CHARS), name: textUpTo(NAME_CHARS), timing: timingSchema,
    rate: numberFrom(SETTING_LIMITS.rate.min, SETTING_LIMITS.rate.max, 'exposures a second'), on: oneOf(STEP_HOLDS),
    timeScale: numberFrom(SETTING_LIMITS.timeScale.min, SETTING_LIMITS.timeScale.max),
  }),
  200,
  'timings',
);

const TIP = 'docs/pace.md tells what a timing file may hold.';

/**
 * Reads the text of a timing file. Fields may be left out; they then stand as in {@link DEFAULT_TIMING}.
 *
 * @throws NudgebookError `bad-timing` for what is not JSON or no timing
 */
export function parseTimingText(text: string): TimingSettings {
  let value: unknown;
  try {
    value = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (cause) {
    throw new NudgebookError('bad-timing', 'The timing is not JSON.', TIP, cause);
  }
  const whole: unknown = typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...DEFAULT_TIMING, ...value } : value;
  const read = timingSchema.safeParse(whole);
  if (!read.success) throw refusal('bad-timing', 'the timing', TIP, read.error, whole);
  return read.data;
}
