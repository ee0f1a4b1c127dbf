/**
 * The last step: joints with exactly constant lengths, and the root moved by the little that keeps standing feet standing.
 */
import { factorBand, forwardSolve, backwardSolve } from './bandedCholesky.ts';
import { LAB_MEMORY, PLANTED_STEP_M } from './constants.ts';
import { emptyFigure, settle, stepFigure, type Figure } from './figure.ts';
import { FRAME_SIZE, HIP_AT, POINT, POINT_COUNT, SHOULDER_AT, SPINE_AT, TRUNK_LENGTH_AT } from './layout.ts';

/** A figure with no slack whose trunk vectors have the take's lengths. */
export function makeRigid(figure: Figure): Figure {
  const out = emptyFigure(figure.frames, figure.globals.length);
  const zero = new Float64Array(figure.frames * FRAME_SIZE);
  stepFigure(figure, out, zero, figure.slack.map((e) => -e), new Float64Array(0));
  for (let t = 0; t < out.frames; t++) {
    for (const [k, at] of [HIP_AT, SPINE_AT, SHOULDER_AT].entries()) {
      const i = t * 12 + at;
      const size = Math.hypot(out.free[i]!, out.free[i + 1]!, out.free[i + 2]!) || 1;
      const by = out.globals[TRUNK_LENGTH_AT + k]! / size;
      for (let c = 0; c < 3; c++) out.free[i + c] = out.free[i + c]! * by;
    }
  }
  settle(out);
  return out;
}

/** Freedom of the root against the fit, and of its change from frame to frame (chosen: what slack and trunk lengths took away; smooth). */
const ROOT_FREE_M = 0.03;
const ROOT_CHANGE_M = 0.002;
/** After this step no standing foot creeps: a tenth of the fit's own allowance. */
const STAND_M = (PLANTED_STEP_M * LAB_MEMORY) / 10;

/**
 * Moves the root of a rigid figure, in place: least squares of standing ankles' steps, of the shift itself and of its second
 * difference; each axis alone.
 *
 * @param planted [T·2]
 */
export function standStill(figure: Figure, planted: Float64Array): void {
  const { frames, free, points } = figure;
  for (let axis = 0; axis < 3; axis++) {
    // One unknown a frame: the band of width 3 holds t-2, t-1, t.
    const band = new Float64Array(frames * 3);
    const shift = new Float64Array(frames);
    const add = (entries: readonly (readonly [number, number])[], right: number): void => {
      for (const [u, a] of entries) {
        shift[u] = shift[u]! + a * right;
        for (const [v, b] of entries) if (v <= u) band[u * 3 + v - u + 2] = band[u * 3 + v - u + 2]! + a * b;
      }
    };
    for (let t = 0; t < frames; t++) {
      add([[t, 1 / ROOT_FREE_M]], 0);
      if (t >= 2) add([[t - 2, 1 / ROOT_CHANGE_M], [t - 1, -2 / ROOT_CHANGE_M], [t, 1 / ROOT_CHANGE_M]], 0);
      if (t === 0) continue;
      for (const [foot, point] of [POINT.leftAnkle, POINT.rightAnkle].entries()) {
        if (Math.min(planted[t * 2 + foot]!, planted[t * 2 - 2 + foot]!) === 0) continue;
        const i = (t * POINT_COUNT + point) * 3 + axis;
        const step = points[i]! - points[i - POINT_COUNT * 3]!;
        add([[t - 1, -1 / STAND_M], [t, 1 / STAND_M]], -step / STAND_M);
      }
    }
    if (!factorBand(band, frames, 1)) continue;
    forwardSolve(band, frames, 1, shift, 0);
    backwardSolve(band, frames, 1, shift);
    for (let t = 0; t < frames; t++) free[t * 12 + axis] = free[t * 12 + axis]! + shift[t]!;
  }
  settle(figure);
}
