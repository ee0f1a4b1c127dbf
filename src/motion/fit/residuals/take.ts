/** What is expected of the take as a whole: lengths as measured, a level camera, depth squeezed as usual. */
import {
  ELBOW_GAIN, ELBOW_GAIN_SIGMA, ELBOW_OFFSET_RAD, ELBOW_OFFSET_SIGMA_RAD,
  LENGTH_SIGMA, TRUNK_LENGTH_SIGMA_M,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { HABIT_OF_VECTOR } from '../habits.ts';
import {
  DEPTH_VECTORS, depthGainAt, depthOffsetAt, elbowGainAt, elbowOffsetAt, FLOOR_AT, LOG_LENGTH_AT, PITCH_AT, ROLL_AT, TRUNK_LENGTH_AT,
} from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

/** The floor's height has no prior; this only keeps the matrix regular where no foot ever stands. */
const FLOOR_LOOSE_M = 100;

/** Rows (value - expected)/sigma for every unknown of the take. */
export function takeRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const row = (index: number, expected: number, sigma: number): void => {
    rows.open(0);
    rows.global(index, 1 / sigma);
    rows.emit((figure.globals[index]! - expected) / sigma, 1);
  };
  for (let i = 0; i < 4; i++) row(LOG_LENGTH_AT + i, problem.logLengths[i]!, LENGTH_SIGMA);
  for (let i = 0; i < 3; i++) row(TRUNK_LENGTH_AT + i, problem.trunkM[i]!, TRUNK_LENGTH_SIGMA_M);
  row(PITCH_AT, problem.pitch.meanRad, problem.pitch.sigmaRad);
  row(ROLL_AT, problem.roll.meanRad, problem.roll.sigmaRad);
  row(FLOOR_AT, 0, FLOOR_LOOSE_M);
  for (let camera = 0; camera < problem.cameras.length; camera++) {
    for (let v = 0; v < DEPTH_VECTORS; v++) {
      const { gain, gainSigma, offsetSigmaM } = problem.habits.depth[HABIT_OF_VECTOR[v]!]!;
      row(depthGainAt(camera, v), gain, gainSigma);
      row(depthOffsetAt(camera, v), 0, offsetSigmaM);
    }
    row(elbowOffsetAt(camera), ELBOW_OFFSET_RAD, ELBOW_OFFSET_SIGMA_RAD);
    row(elbowGainAt(camera), ELBOW_GAIN, ELBOW_GAIN_SIGMA);
  }
}
