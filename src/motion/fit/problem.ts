/**
 * What the residuals look at: the measurements of each camera at the knots of time, and what is taken for granted.
 */
import type { HandSet } from './handSet.ts';

import type { Habits } from './habits.ts';
import type { Readings } from './reader/readTrack.ts';

/**
 * One camera's measurements at K knots.
 *
 * - `focalPx` focal length in pixels of the frame; `rotation[9]` row-major and `translation[3]`: point in this camera =
 *   rotation · point in the first camera + translation (the first camera has the identity and zero).
 * - `sigmaPx` landmark error in this picture; `stepSigmaPx` the same between neighbouring frames (jitter alone).
 * - `image[K·12·2]` joints in pixels about the middle of the picture, y down; `weight[K·12]` 0..1, 0 where unseen.
 * - `seen[K·12]` 0..1, how well they are seen: `weight` without the reader's doubts of their places.
 * - `depth[K·11]` depth of each vector in the model's world landmarks, metres, away from the camera positive.
 * - `depthSigmaM[K·11]` one sigma of it, metres; `depthWeight[K·11]` 0..1, how well both ends of the vector are seen.
 * - `read` what the reader says of the vectors' unit directions in depth, from which depth is made, and of the bends; `null` without a reader.
 * - `elbowRad[K·2]` raw flexion of left and right elbow from the world landmarks.
 */
export interface Observations {
  readonly focalPx: number;
  readonly rotation: Float64Array;
  readonly translation: Float64Array;
  readonly sigmaPx: number;
  readonly stepSigmaPx: number;
  readonly image: Float64Array;
  readonly weight: Float64Array;
  readonly seen: Float64Array;
  readonly depth: Float64Array;
  readonly depthSigmaM: Float64Array;
  readonly depthWeight: Float64Array;
  readonly read: Omit<Readings, 'shiftSigmaM'> | null;
  readonly elbowRad: Float64Array;
}

/**
 * K knots.
 *
 * - `timesS[K]` rising; `spanS[K]` time that each knot speaks for; `evidence[K]` its share of the error memory, at most 1,
 *   and 0 where no camera found anybody.
 * - `planted[K·2]` 1 where the ankle of left and right foot is held still; `standing[K·2]` 1 where the foot stands on any part of its sole.
 * - `logLengths[4]`, `trunkM[3]` measured lengths that the prior pulls to.
 */
export interface Problem {
  readonly frames: number;
  readonly timesS: Float64Array;
  readonly spanS: Float64Array;
  readonly evidence: Float64Array;
  readonly cameras: readonly Observations[];
  /** What is expected of the pose model. */
  readonly habits: Habits;
  readonly planted: Float64Array;
  readonly standing: Float64Array;
  readonly logLengths: Float64Array;
  readonly trunkM: Float64Array;
  readonly pitch: AnglePrior;
  readonly roll: AnglePrior;
  /** Whether neighbouring frames are close enough in time that landmark steps between them say something of their own. */
  readonly useSteps: boolean;
  readonly looseness: Looseness;
  /** What a person said; `null` where nobody said anything. */
  readonly handSet: HandSet | null;
}

/** Factors on the sigmas of smoothness: of the bones' directions across the view, where the picture itself can tell, and of the hips' half-axis. */
export interface Looseness {
  readonly arms: number;
  readonly legs: number;
  readonly hips: number;
}

export interface AnglePrior {
  readonly meanRad: number;
  readonly sigmaRad: number;
}
