/**
 * What a book may hold about the puppet beside its armature: how it follows, what is pinned, what moves by hand, what is read.
 */
import { driveSchema } from '../puppet/armatureSchema.ts';
import { CURVE_AXES, EASES } from '../puppet/puppetSettings.ts';
import { fields, numberFrom, oneOf, textUpTo, wholeFrom } from './schemaParts.ts';
import { z } from './zod.ts';

const NAME_CHARS = 100;
const FAR_MM = 100_000;
const LATEST_S = 1e6;

const trueOrFalse = z.boolean({ error: 'true or false' });
const millimetres = numberFrom(-FAR_MM, FAR_MM, 'mm');
const moment = numberFrom(0, LATEST_S, 'seconds');

function listOf<T extends z.core.SomeType>(of: T, most: number, what: string) {
  const error = `a list of at most ${most} ${what}`;
  return z.array(of, { error }).max(most, { error });
}

const keysAllowed = 'keys whose times rise';
const curve = fields({
  joint: textUpTo(NAME_CHARS),
  axis: oneOf(CURVE_AXES),
  keys: listOf(fields({ timeS: moment, valueDeg: numberFrom(-3600, 3600, 'degrees'), ease: oneOf(EASES) }), 10_000, 'keys')
    .refine((keys) => keys.every((key, i) => i === 0 || key.timeS > keys[i - 1]!.timeS), { error: keysAllowed }),
});

const pin = fields({
  bone: textUpTo(NAME_CHARS),
  at: numberFrom(0, 1),
  fromS: moment,
  toS: moment,
  targetMm: z.tuple([millimetres, millimetres, millimetres], { error: 'three numbers of mm: forward, up, right, or null' }).nullable(),
  easeSteps: numberFrom(0, 1000, 'steps'),
}).refine(({ fromS, toS }) => fromS <= toS, { error: 'a pin whose fromS does not lie after its toS' });

export const puppetSchema = fields({
  drives: listOf(driveSchema, 200, 'drives').nullable(),
  curves: listOf(curve, 500, 'curves'),
  pins: listOf(pin, 500, 'pins'),
  plantFeet: trueOrFalse,
  datum: fields({
    everySteps: wholeFrom(0, 10_000),
    atSteps: listOf(wholeFrom(1, 1_000_000), 100_000, 'step numbers'),
    points: listOf(textUpTo(NAME_CHARS), 500, 'names of points').nullable(),
    markMm: z.tuple([millimetres, millimetres], { error: 'two numbers of mm: forward, right' }),
  }),
  view: fields({ azimuthDeg: numberFrom(-360, 360, 'degrees'), elevationDeg: numberFrom(-90, 90, 'degrees') }),
  apparentHeightM: numberFrom(0.001, 10_000, 'metres').nullable(),
});
