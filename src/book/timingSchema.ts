/** What a book may hold about the timing: marks, holds, pauses, and timings kept under a name. */
import { STEP_HOLDS, SETTING_LIMITS } from '../plan/settings.ts';
import { JOINT_NAMES } from '../motion/joints.ts';
import { ALIVE_PATTERNS, ALIVE_STRENGTHS, FILM_GAUGES, MARK_KINDS } from '../timing/timingSettings.ts';
import { fields, numberFrom, oneOf, textUpTo, wholeFrom } from './schemaParts.ts';
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
