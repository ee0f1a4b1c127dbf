/**
 * Form of the armature document, field by field; what hangs on what is checked in `checkStructure.ts`. Every `error` text
 * says what is allowed there, so that one place can make the sentences (`parseArmature.ts`).
 */
import { z } from 'zod';
import { JOINT_NAMES } from '../motion/joints.ts';
import { ARMATURE_FORMAT, ARMATURE_VERSION, PUPPET_KINDS } from './armature.ts';

export const NAME_LENGTH = 100;
export const NOTES_LENGTH = 2000;
/** More bones than any puppet has, few enough that nothing stalls. Our choice. */
export const MOST_BONES = 120;
/** Longest and shortest bone believed, mm. Anything else is a slip of the unit. Our choice. */
export const LENGTH_MM = { min: 0.1, max: 4000 };

function fields<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  return z.strictObject(shape, { error: `an object with the fields ${Object.keys(shape).join(', ')}` });
}

function number(min: number, max: number, unit = '') {
  const error = `a number from ${min} to ${max}${unit === '' ? '' : ` (${unit})`}`;
  return z.number({ error }).min(min, { error }).max(max, { error });
}

function whole(min: number, max: number) {
  const error = `a whole number from ${min} to ${max}`;
  return z.int({ error }).min(min, { error }).max(max, { error });
}

function text(max: number, min = 0) {
  const error = min === 0 ? `a text of at most ${max} characters` : `a text of ${min} to ${max} characters`;
  return z.string({ error }).trim().min(min, { error }).max(max, { error });
}

function list<T extends z.core.SomeType>(of: T, min: number, max: number, what: string) {
  const error = `a list of ${min} to ${max} ${what}`;
  return z.array(of, { error }).min(min, { error }).max(max, { error });
}

const name = text(NAME_LENGTH, 1);
const notes = text(NOTES_LENGTH).optional();
const tripleError = 'three numbers: forward, up, right';
const millimetres = number(-LENGTH_MM.max, LENGTH_MM.max, 'millimetres');
const triple = z.tuple([millimetres, millimetres, millimetres], { error: tripleError });
const directionError = 'a direction of three numbers: forward, up, right, not all 0';
const part = z.number({ error: directionError }).min(-1000, { error: directionError }).max(1000, { error: directionError });
const direction = z.tuple([part, part, part], { error: directionError })
  .refine((v) => Math.hypot(...v) > 1e-6, { error: directionError });
const rangeError = 'two numbers of degrees, the least first, from -720 to 720';
const degree = z.number({ error: rangeError }).min(-720, { error: rangeError }).max(720, { error: rangeError });
const range = z.tuple([degree, degree], { error: rangeError }).refine(([least, most]) => least <= most, { error: rangeError });

function perAxis<T extends z.core.SomeType>(of: T) {
  return fields({ axis: z.optional(of), forward: z.optional(of), up: z.optional(of), right: z.optional(of) });
}

const sole = fields({
  outlineMm: list(z.tuple([millimetres, millimetres], { error: 'two numbers: forward, right' }), 3, 60, 'corners'),
  dropMm: number(0, LENGTH_MM.max, 'millimetres'),
});

const bone = fields({
  name,
  lengthMm: number(LENGTH_MM.min, LENGTH_MM.max, 'millimetres'),
  lengthFrom: z.literal('proportion', { error: 'the text "proportion", or nothing where it was measured' }).optional(),
  along: direction.optional(),
  massG: number(0, 1e6, 'grams').optional(),
  massAt: number(-1, 2).optional(),
  radiusMm: number(0.01, LENGTH_MM.max, 'millimetres').optional(),
  sole: sole.nullable().optional(),
  tieDown: z.boolean({ error: 'true or false' }).optional(),
  notes,
});

const screw = fields({
  pitchMm: number(0.05, 50, 'millimetres for one turn'),
  leverMm: number(0.1, LENGTH_MM.max, 'millimetres'),
  starts: whole(1, 20).optional(),
  squareAtDeg: number(-180, 180, 'degrees').optional(),
  smallestTurns: number(0.001, 10, 'turns').optional(),
});

const joint = fields({
  name,
  parent: name.nullable(),
  child: name,
  at: number(0, 1).optional(),
  offsetMm: triple.optional(),
  kind: z.enum(PUPPET_KINDS, { error: `one of ${PUPPET_KINDS.join(', ')}` }).optional(),
  axis: direction.optional(),
  limitsDeg: perAxis(range.nullable()).optional(),
  smallestDeg: number(0.01, 45, 'degrees').optional(),
  slackDeg: number(0, 45, 'degrees').optional(),
  screw: screw.optional(),
  notes,
});

export const driveSchema = fields({
  joint: name,
  from: z.enum(JOINT_NAMES, { error: `null or one of ${JOINT_NAMES.join(', ')}` }).nullable(),
  weight: number(0, 1000).optional(),
  gain: number(-10, 10).optional(),
  offsetDeg: perAxis(number(-360, 360, 'degrees')).optional(),
  delaySteps: number(-1000, 1000, 'steps').optional(),
});

export const armatureSchema = fields({
  format: z.literal(ARMATURE_FORMAT, { error: `the text "${ARMATURE_FORMAT}"` }),
  version: z.literal(ARMATURE_VERSION, { error: `the number 1 or ${ARMATURE_VERSION}` }),
  name,
  notes,
  totalMassG: number(0.1, 1e6, 'grams').optional(),
  bones: list(bone, 1, MOST_BONES, 'bones'),
  joints: list(joint, 1, MOST_BONES, 'joints'),
  drives: list(driveSchema, 0, MOST_BONES, 'drives').optional(),
});
