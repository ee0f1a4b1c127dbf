/** How surely the fit knows the camera's pitch and roll. */
import { GIVEN_ANGLE_SIGMA_RAD } from './constants.ts';
import { PITCH_AT, ROLL_AT } from './layout.ts';
import type { Figure } from './figure.ts';
import type { NormalEquations } from './normalEquations.ts';
import type { Problem } from './problem.ts';
import { FAMILIES, FAMILY_NAMES, type FamilyName } from './residuals/all.ts';

/**
 * What the equations tell is too small: they take every prior and every sigma at its word, and know nothing of what the pose model
 * gets wrong in the same way throughout a take. With this factor two in three of the tuning clips' pitches lie within it (tuned, with the heavy model). The roll has none: where
 * nothing shows it, it is told as its prior, which holds for cameras that were levelled.
 */
const PITCH_WIDER = 1.5;

/** One sigma, radians; NaN where the fit was stopped before it was done. */
export interface CameraSigma {
  readonly pitchRad: number;
  readonly rollRad: number;
}

export const NO_CAMERA_SIGMA: CameraSigma = { pitchRad: Number.NaN, rollRad: Number.NaN };

/**
 * What the rows at a solved figure leave open of pitch and roll, everything else being free to follow: the root of their
 * diagonal entries in the inverse of the border's Schur complement, widened by what clips with a known camera showed. Costs one iteration.
 *
 * @param rows room for the equations, with the take's unknowns; overwritten
 */
export function cameraSigma(problem: Problem, figure: Figure, rows: NormalEquations, without: readonly FamilyName[]): CameraSigma {
  rows.clear(figure, true);
  for (const name of FAMILY_NAMES) if (!without.includes(name)) FAMILIES[name](problem, figure, rows);
  if (!rows.solve(0)) return NO_CAMERA_SIGMA;
  const wider = problem.pitch.sigmaRad > GIVEN_ANGLE_SIGMA_RAD ? PITCH_WIDER : 1;
  return { pitchRad: wider * rows.edgeSigma(PITCH_AT), rollRad: rows.edgeSigma(ROLL_AT) };
}
