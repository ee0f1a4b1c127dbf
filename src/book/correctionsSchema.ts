/**
 * What corrections may hold, in the book and in a file of their own. Whether they suit a certain take (a time beyond its end) is
 * not asked here: such an entry says nothing to the fit and is kept, for the take may be a longer cut tomorrow.
 */
import { NudgebookError } from '../errors.ts';
import { ANGLE_MEASURES, CORRECTABLE_JOINTS } from '../motion/corrections/angleMeasures.ts';
import { CORRECTION_LIMITS, NO_CORRECTIONS, type Corrections } from '../motion/corrections/corrections.ts';
import { LIMB_NAMES } from '../motion/fit/layout.ts';
import { LANDMARK_NAMES } from '../pose/landmarks.ts';
import { quoted, refusal } from './refusal.ts';
import { fields, numberFrom, oneOf } from './schemaParts.ts';
import { z } from './zod.ts';

const { pitchDeg, rollDeg, verticalFovDeg, place, timeS, count } = CORRECTION_LIMITS;
const moment = () => numberFrom(timeS.min, timeS.max, 'seconds');
const yesOrNo = () => z.boolean({ error: 'true or false' });

/** A list of at most `count` entries. */
function listOf<Entry extends z.ZodType>(what: string, entry: Entry) {
  const error = `a list of at most ${count} ${what}`;
  return z.array(entry, { error }).max(count, { error });
}

/** A span whose end does not lie before its beginning; the sentence names the end. */
function inOrder<Value extends object>(from: keyof Value & string, to: keyof Value & string) {
  return (value: Value, context: { addIssue: (issue: { code: 'custom'; path: string[]; message: string }) => void }): void => {
    const [a, b] = [value[from], value[to]];
    if (typeof a === 'number' && typeof b === 'number' && b < a) {
      context.addIssue({ code: 'custom', path: [to], message: `a time from ${from} (${a}) on` });
    }
  };
}

const angleSchema = fields({
  timeS: moment(),
  joint: oneOf(CORRECTABLE_JOINTS),
  angleDeg: z.number({ error: 'a number of degrees' }),
}).superRefine(({ joint, angleDeg }, context) => {
  const { minDeg, maxDeg } = ANGLE_MEASURES[joint];
  if (angleDeg < minDeg || angleDeg > maxDeg) {
    context.addIssue({ code: 'custom', path: ['angleDeg'], message: `from ${minDeg} to ${maxDeg} degrees for ${joint}` });
  }
});

const slateSchema = z.discriminatedUnion('kind', [
  fields({ kind: z.literal('find') }),
  fields({ kind: z.literal('none') }),
  fields({
    kind: z.literal('given'), straightFromS: moment(), straightToS: moment(), squareFromS: moment().nullable(), squareToS: moment().nullable(),
  })
    .superRefine(inOrder('straightFromS', 'straightToS'))
    .superRefine(inOrder('squareFromS', 'squareToS'))
    .superRefine(({ squareFromS, squareToS }, context) => {
      if ((squareFromS === null) === (squareToS === null)) return;
      context.addIssue({ code: 'custom', path: [squareToS === null ? 'squareToS' : 'squareFromS'], message: 'a time where the other end has one, or null for both' });
    }),
], { error: 'an object whose kind is find, none or given' });

export const correctionsSchema = fields({
  camera: fields({
    pitchDeg: numberFrom(pitchDeg.min, pitchDeg.max, 'degrees, or null').nullable(),
    rollDeg: numberFrom(rollDeg.min, rollDeg.max, 'degrees, or null').nullable(),
    verticalFovDeg: numberFrom(verticalFovDeg.min, verticalFovDeg.max, 'degrees, or null').nullable(),
  }),
  placed: listOf('placed joints', fields({
    timeS: moment(), landmark: oneOf(LANDMARK_NAMES), x: numberFrom(place.min, place.max), y: numberFrom(place.min, place.max),
  })),
  angles: listOf('typed angles', angleSchema),
  depthFlips: listOf('depth flips', fields({
    limb: oneOf(LIMB_NAMES), bone: oneOf(['upper', 'lower', 'both']), fromS: moment(), toS: moment(),
  }).superRefine(inOrder('fromS', 'toS'))),
  swaps: listOf('swaps', fields({
    fromS: moment(), toS: moment(), part: oneOf(['all', 'arms', 'legs']), swapped: yesOrNo(),
  }).superRefine(inOrder('fromS', 'toS'))),
  contacts: listOf('contacts', fields({
    foot: oneOf(['left', 'right']), fromS: moment(), toS: moment(), stands: yesOrNo(),
  }).superRefine(inOrder('fromS', 'toS'))),
  slate: slateSchema,
});

const TIP = 'See docs/corrections.md for what may stand there.';

/**
 * Reads any value as corrections, as they stand in the book or in a file.
 *
 * @throws NudgebookError `bad-corrections` naming the field, its value and what is allowed
 */
export function parseCorrections(value: unknown): Corrections {
  if (!isRecord(value)) throw new NudgebookError('bad-corrections', `Corrections are an object, and this is ${quoted(value)}.`, TIP);
  const result = correctionsSchema.safeParse(value);
  if (result.success) return result.data;
  throw refusal('bad-corrections', 'the corrections', TIP, result.error, value);
}

/**
 * Reads the text of a corrections file. Fields may be left out there; they then stand as in {@link NO_CORRECTIONS}.
 *
 * @throws NudgebookError `bad-corrections` for what is not JSON or not corrections
 */
export function parseCorrectionsText(text: string): Corrections {
  let value: unknown;
  try {
    value = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (cause) {
    throw new NudgebookError('bad-corrections', 'The corrections are not JSON.', TIP, cause);
  }
  return parseCorrections(isRecord(value) ? { ...NO_CORRECTIONS, ...value } : value);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
