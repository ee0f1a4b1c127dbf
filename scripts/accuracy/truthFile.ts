/**
 * Reads the true motion that stands beside a reference clip. The format is described in reference-clips/README.md.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';

const vec3 = z.tuple([z.number(), z.number(), z.number()]);
const quat = z.tuple([z.number(), z.number(), z.number(), z.number()]);

const truthSchema = z.object({
  format: z.literal('nudgebook-reference-truth'),
  version: z.literal(1),
  clip: z.string(),
  says: z.string(),
  frames: z.number().int().positive(),
  timesS: z.array(z.number()),
  widthPx: z.number(),
  heightPx: z.number(),
  camera: z.object({ focalPx: z.number(), centrePx: z.tuple([z.number(), z.number()]), positionM: vec3, targetM: vec3, azimuthDeg: z.number(), pitchDownDeg: z.number(), rollDeg: z.number() }),
  /** Parents stand before children. */
  body: z.object({ skeleton: z.record(z.string(), z.object({ parent: z.string().nullable(), offsetM: vec3 })) }),
  rootM: z.array(vec3),
  leftFootOnFloor: z.array(z.number()),
  rightFootOnFloor: z.array(z.number()),
  joints: z.record(z.string(), z.union([
    z.object({ kind: z.literal('hinge'), flexionDeg: z.array(z.number()) }),
    z.object({ kind: z.literal('ball'), rotation: z.array(quat) }),
  ])),
});

/** The parts of a truth file that are needed to compare. Lengths in metres, axes X forward, Y up, Z to the performer's right. */
export type Truth = z.infer<typeof truthSchema>;

/**
 * @param path of a `.truth.json`
 * @throws Error with the path where the file is not in the format, or its series are not all as long as it has frames
 */
export function readTruth(path: string): Truth {
  const parsed = truthSchema.safeParse(JSON.parse(readFileSync(path, 'utf8')));
  if (!parsed.success) throw new Error(`${path} is no truth file: ${z.prettifyError(parsed.error)}`);
  const truth = parsed.data;
  const lengths = [truth.timesS.length, truth.rootM.length, truth.leftFootOnFloor.length, truth.rightFootOnFloor.length,
    ...Object.values(truth.joints).map((joint) => (joint.kind === 'hinge' ? joint.flexionDeg : joint.rotation).length)];
  if (lengths.some((n) => n !== truth.frames)) throw new Error(`${path} has ${truth.frames} frames, but series of ${lengths.join(', ')}.`);
  return truth;
}
