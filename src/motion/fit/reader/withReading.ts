/** Depth of the vectors from the reader's leans and the figure's lengths, in place of the model's world landmarks. */
import type { Figure } from '../figure.ts';
import { BONE_COUNT, DEPTH_VECTORS, LENGTH_OF_BONE, LOG_LENGTH_AT, TRUNK_LENGTH_AT } from '../layout.ts';
import type { Observations } from '../problem.ts';

/** No lean is believed more closely than this (chosen: a tenth of a right angle for a bone across the view). */
const LEAST_SIGMA = 0.06;

/** What the reader says counts less than it thinks (tuned; the trunk's also so that the hips don't wander with it at rest): takes are richer in straight limbs than what it was taught on, and one reading shares its error with the next. */
const ARM_WIDER = 1.2;
const LEG_WIDER = 3;
const TRUNK_WIDER = 1.5;
const widenedBy = (vector: number): number => (vector < 4 ? ARM_WIDER : vector < BONE_COUNT ? LEG_WIDER : TRUNK_WIDER);

/** The length of each vector of depth in a figure's take, metres [11]. */
export function vectorLengths({ globals }: Figure): number[] {
  return Array.from({ length: DEPTH_VECTORS }, (_, v) =>
    (v < BONE_COUNT ? Math.exp(globals[LOG_LENGTH_AT + LENGTH_OF_BONE[v]!]!) : globals[TRUNK_LENGTH_AT + v - BONE_COUNT]!));
}

/** @param camera measurements that have been read, with the habits of places already off */
export function withReading(camera: Observations, read: NonNullable<Observations['read']>, figure: Figure): Observations {
  const lengths = vectorLengths(figure);
  return {
    ...camera,
    depth: read.lean.map((lean, i) => lean * lengths[i % DEPTH_VECTORS]!),
    depthSigmaM: read.leanSigma.map((sigma, i) => widenedBy(i % DEPTH_VECTORS) * Math.max(LEAST_SIGMA, sigma) * lengths[i % DEPTH_VECTORS]!),
  };
}
