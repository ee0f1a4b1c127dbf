/** What a person said, as rows: see `motion/corrections`. */
import { FIRM_SIGMA_M, HAND_HUBER, SIGN_SIGMA } from '../constants.ts';
import type { Figure } from '../figure.ts';
import type { AngleRow, PinRow, PlaceRow, SignRow } from '../handSet.ts';
import { BONE_COUNT, HIP_AT, POINT_COUNT, SHOULDER_AT, SPINE_AT, TRUNK_LENGTH_AT } from '../layout.ts';
import { measureAngle, measureSlopes } from '../measures.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { NEAREST_M } from './image.ts';

/** Rows of all kinds; none where nobody said anything. */
export function handSetRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { handSet } = problem;
  if (handSet === null) return;
  for (const row of handSet.places) place(row, problem.cameras[0]!.focalPx, figure, rows);
  for (const row of handSet.angles) angle(row, figure, rows);
  for (const row of handSet.signs) sign(row, figure, rows);
  for (const row of handSet.pins) pin(row, figure, rows);
  for (const frame of handSet.firm) firm(frame, figure, rows);
}

/** (f·X/Z - x)/σ and the same in y, of the joint with constant lengths. */
function place({ frame, point, x, y, sigmaPx }: PlaceRow, focalPx: number, figure: Figure, rows: NormalEquations): void {
  const i = (frame * POINT_COUNT + point) * 3;
  const z = Math.max(NEAREST_M, figure.points[i + 2]!);
  const by = focalPx / sigmaPx / z;
  for (let axis = 0; axis < 2; axis++) {
    const seen = by * figure.points[i + axis]!;
    rows.open(frame);
    rows.point(frame, point, axis === 0 ? by : 0, axis === 1 ? by : 0, -seen / z, false);
    rows.emit(seen - (axis === 0 ? x : y) / sigmaPx, 1, 'huber', HAND_HUBER);
  }
}

/** (angle - said)/σ. */
function angle({ frame, measure, angleRad, sigmaRad }: AngleRow, figure: Figure, rows: NormalEquations): void {
  rows.open(frame);
  measureSlopes(rows, figure, frame, measure, 1 / sigmaRad);
  rows.emit((measureAngle(figure, frame, measure) - angleRad) / sigmaRad, 1, 'huber', HAND_HUBER);
}

/** max(0, least - sign·(d·ray))/σ. */
function sign({ frame, bone, ray, sign: wanted, least }: SignRow, figure: Figure, rows: NormalEquations): void {
  const d = (frame * BONE_COUNT + bone) * 3;
  const along = wanted * (figure.directions[d]! * ray[0] + figure.directions[d + 1]! * ray[1] + figure.directions[d + 2]! * ray[2]);
  if (along >= least) return;
  const by = -wanted / SIGN_SIGMA;
  rows.open(frame);
  rows.direction(frame, bone, by * ray[0], by * ray[1], by * ray[2]);
  rows.emit((least - along) / SIGN_SIGMA, 1);
}

/** (unknown - where it was)/σ for what is held of a frame. */
function pin({ frame, free, directions, sigmas }: PinRow, figure: Figure, rows: NormalEquations): void {
  for (let v = 0; v < 12; v++) {
    const by = 1 / sigmas[v]!;
    if (by === 0) continue;
    rows.open(frame);
    rows.free(frame, v, by);
    rows.emit((figure.free[frame * 12 + v]! - free[v]!) * by, 1);
  }
  for (let bone = 0; bone < BONE_COUNT; bone++) {
    const by = 1 / sigmas[12 + bone]!;
    if (by === 0) continue;
    for (let k = 0; k < 3; k++) {
      rows.open(frame);
      rows.direction(frame, bone, k === 0 ? by : 0, k === 1 ? by : 0, k === 2 ? by : 0);
      rows.emit((figure.directions[(frame * BONE_COUNT + bone) * 3 + k]! - directions[bone * 3 + k]!) * by, 1);
    }
  }
}

/** (|v| - L)/σ for hip half-axis, spine and shoulder half-axis, so that making the figure rigid moves nothing here. */
function firm(frame: number, figure: Figure, rows: NormalEquations): void {
  for (const [k, part] of [HIP_AT, SPINE_AT, SHOULDER_AT].entries()) {
    const i = frame * 12 + part;
    const { free } = figure;
    const size = Math.hypot(free[i]!, free[i + 1]!, free[i + 2]!) || 1e-9;
    const by = 1 / (size * FIRM_SIGMA_M);
    rows.open(frame);
    rows.vector(frame, part, free[i]! * by, free[i + 1]! * by, free[i + 2]! * by);
    rows.global(TRUNK_LENGTH_AT + k, -1 / FIRM_SIGMA_M);
    rows.emit((size - figure.globals[TRUNK_LENGTH_AT + k]!) / FIRM_SIGMA_M, 1);
  }
}
