/** Where the solver starts: the trunk from the world landmarks, the root from their overlay, bones by projected length. */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import { ELBOW_GAIN, ELBOW_OFFSET_RAD } from './constants.ts';
import { emptyFigure, settle, type Figure } from './figure.ts';
import { HABIT_OF_VECTOR } from './habits.ts';
import {
  BONE_COUNT, BONE_END, DEPTH_VECTORS, depthGainAt, elbowGainAt, elbowOffsetAt, FIGURE_LANDMARKS, globalCount, LOG_LENGTH_AT, PITCH_AT, POINT_COUNT, ROLL_AT, SPINE_AT,
  TRUNK_LENGTH_AT,
} from './layout.ts';
import { chooseSigns } from './limbSigns.ts';
import type { Problem } from './problem.ts';
import { fillHoles, quantile } from './series.ts';
import type { View } from './view.ts';

/** Raw trunk of each knot [K·9] (hip half-axis, spine, shoulder half-axis) from the world landmarks, holes bridged. */
export function rawTrunk(view: View, knots: Int32Array, timesS: Float64Array): Float64Array {
  const { world, found } = view.track;
  const out = new Float64Array(knots.length * 9).fill(Number.NaN);
  for (let k = 0; k < knots.length; k++) {
    const t = knots[k]!;
    if (found[t] !== 1) continue;
    const at = (landmark: number, axis: number): number => world[(t * LANDMARK_COUNT + landmark) * 3 + axis]!;
    for (let axis = 0; axis < 3; axis++) {
      const [lh, rh] = [at(LANDMARK.leftHip, axis), at(LANDMARK.rightHip, axis)];
      const [ls, rs] = [at(LANDMARK.leftShoulder, axis), at(LANDMARK.rightShoulder, axis)];
      out[k * 9 + axis] = (lh - rh) / 2;
      out[k * 9 + 3 + axis] = (ls + rs - lh - rh) / 2;
      out[k * 9 + 6 + axis] = (ls - rs) / 2;
    }
  }
  fillHoles(out, 9, timesS);
  return out;
}

/** Median length of hip half-axis, spine (taken as 0: its projection is a better measure) and shoulder half-axis. */
export function leastTrunk(trunk: Float64Array): [number, number, number] {
  const size = (at: number): number =>
    quantile(Array.from({ length: trunk.length / 9 }, (_, k) => Math.hypot(trunk[k * 9 + at]!, trunk[k * 9 + at + 1]!, trunk[k * 9 + at + 2]!)), 0.5);
  return [size(0), 0, size(6)];
}

/** Depth of each joint of each knot [K·12], from the placed root and the world landmarks. */
export function rawDepths(view: View, knots: Int32Array, root: Float64Array): Float64Array {
  const out = new Float64Array(knots.length * POINT_COUNT);
  for (let k = 0; k < knots.length; k++) {
    for (let p = 0; p < POINT_COUNT; p++) {
      const z = view.track.world[(knots[k]! * LANDMARK_COUNT + FIGURE_LANDMARKS[p]!) * 3 + 2]!;
      out[k * POINT_COUNT + p] = root[k * 3 + 2]! + (Number.isNaN(z) ? 0 : z);
    }
  }
  return out;
}

/** A figure with the problem's lengths, the given root [K·3] and trunk [K·9], and limbs that hang down the picture until {@link startLimbs} chooses them. */
export function startTrunk(problem: Problem, root: Float64Array, trunk: Float64Array): Figure {
  const cameras = problem.cameras.length;
  const figure = emptyFigure(problem.frames, globalCount(cameras));
  for (let t = 0; t < problem.frames; t++) {
    figure.free.set(root.subarray(t * 3, t * 3 + 3), t * 12);
    figure.free.set(trunk.subarray(t * 9, t * 9 + 9), t * 12 + 3);
  }
  const { globals } = figure;
  globals.set(problem.logLengths, LOG_LENGTH_AT);
  globals.set(problem.trunkM, TRUNK_LENGTH_AT);
  globals[PITCH_AT] = problem.pitch.meanRad;
  globals[ROLL_AT] = problem.roll.meanRad;
  for (let c = 0; c < cameras; c++) {
    for (let v = 0; v < DEPTH_VECTORS; v++) globals[depthGainAt(c, v)] = problem.habits.depth[HABIT_OF_VECTOR[v]!]!.gain;
    globals[elbowOffsetAt(c)] = ELBOW_OFFSET_RAD;
    globals[elbowGainAt(c)] = ELBOW_GAIN;
  }
  for (let i = 1; i < figure.directions.length; i += 3) figure.directions[i] = 1;
  settle(figure);
  return figure;
}

/** Chooses the limbs of every knot (see limbSigns.ts), from the measurements of the problem's first camera. */
export function startLimbs(problem: Problem, figure: Figure): void {
  chooseSigns(problem, figure);
  straightenHidden(problem, figure);
  fillUnseen(problem, figure);
  settle(figure);
}

/**
 * A bone whose far end is hidden nearly all along (legs behind a table) starts as the straight continuation of the body: hanging,
 * or in line with the bone before it. What is hidden for a while only (a kneeling shank) starts from what was guessed.
 */
function straightenHidden(problem: Problem, { directions, free }: Figure): void {
  const unseen = (t: number, bone: number): boolean => problem.cameras.every((camera) => !(camera.weight[t * POINT_COUNT + BONE_END[bone]!]! > HIDDEN_WEIGHT));
  const always = Array.from({ length: BONE_COUNT }, (_, bone) => {
    let count = 0;
    for (let t = 0; t < problem.frames; t++) if (unseen(t, bone)) count++;
    return count > HIDDEN_SHARE * problem.frames;
  });
  for (let t = 0; t < problem.frames; t++) {
    for (let bone = 0; bone < BONE_COUNT; bone++) {
      if (!always[bone]! || !unseen(t, bone)) continue;
      const i = (t * BONE_COUNT + bone) * 3;
      if (bone % 2 === 1) directions.copyWithin(i, i - 3, i);
      else {
        const s = t * 12 + SPINE_AT;
        const by = -1 / (Math.hypot(free[s]!, free[s + 1]!, free[s + 2]!) || 1);
        for (let k = 0; k < 3; k++) directions[i + k] = by * free[s + k]!;
      }
    }
  }
}

const HIDDEN_WEIGHT = 0.05;
const HIDDEN_SHARE = 0.7;

/** Knots in which nobody was found take the directions of their neighbours, bridged and made unit. */
function fillUnseen(problem: Problem, figure: Figure): void {
  const { directions } = figure;
  const width = 24;
  for (let t = 0; t < problem.frames; t++) {
    if (problem.evidence[t] === 0) directions.fill(Number.NaN, t * width, t * width + width);
  }
  fillHoles(directions, width, problem.timesS);
  for (let i = 0; i < directions.length; i += 3) {
    const size = Math.hypot(directions[i]!, directions[i + 1]!, directions[i + 2]!);
    if (size > 1e-3) for (let k = 0; k < 3; k++) directions[i + k] = directions[i + k]! / size;
    else directions.set([0, 1, 0], i);
  }
}
