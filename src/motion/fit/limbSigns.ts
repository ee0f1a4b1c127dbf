/**
 * Toward the camera or away: a projected bone leaves two directions open. For each limb the four combinations are weighed in
 * every knot (world depth, joint limits, straightness) and joined over time by the cheapest path, so that the solver starts in
 * the right valley.
 */
import {
  BEND_CAUCHY, BEND_WIDER, DEPTH_CAUCHY, ELBOW_BACK, ELBOW_BACK_SIGMA, HANGING, HANGING_CAUCHY, HANGING_SIGMA, HIP_BACK,
  HIP_BACK_SIGMA, KNEE_SIGMA, STRAIGHT_CAUCHY, STRAIGHT_ELBOW, STRAIGHT_ELBOW_SIGMA, STRAIGHT_KNEE, STRAIGHT_KNEE_SIGMA,
} from './constants.ts';
import type { Figure } from './figure.ts';
import { HABIT_OF_VECTOR } from './habits.ts';
import { BONE_COUNT, BONE_END, BONE_START, DEPTH_VECTORS, HIP_AT, LENGTH_OF_BONE, LIMB_COUNT, POINT_COUNT, SPINE_AT } from './layout.ts';
import type { Problem } from './problem.ts';
import { carried } from './residuals/hinges.ts';
import { lossCost } from './robust.ts';
import { cheapestPath } from './viterbi.ts';

type Triple = [number, number, number];
/** A bone is rarely exactly in the plane: its length is shortened a little before depth is taken from what is missing (lab). */
const SHORTENED = 0.96;
/** How far directions wander, square radians a second (chosen: a flip of a half-deep bone costs about as much as a second of contrary depth). */
const WANDER = 1.5;
/** Joint limits count at most this much here, since trunk and bones are still rough (chosen). */
const LIMIT_CAP = 9;

/** Writes the directions of all bones into the figure, from the first camera's pixels at the figure's root depth. */
export function chooseSigns(problem: Problem, figure: Figure): void {
  const lengths = [...problem.logLengths].map((l) => Math.exp(l));
  for (let limb = 0; limb < LIMB_COUNT; limb++) {
    const { frames } = figure;
    const options = new Float64Array(frames * 4 * 6);
    const here = new Float64Array(frames * 4);
    for (let t = 0; t < frames; t++) {
      const two = [0, 1].map((k) => bothWays(problem, figure, t, limb * 2 + k, lengths[LENGTH_OF_BONE[limb * 2 + k]!]!));
      for (let state = 0; state < 4; state++) {
        const upper = two[0]![state & 1]!;
        const lower = two[1]![state >> 1]!;
        options.set(upper, (t * 4 + state) * 6);
        options.set(lower, (t * 4 + state) * 6 + 3);
        here[t * 4 + state] = problem.evidence[t]! * costOf(problem, figure, t, limb, upper, lower, lengths);
      }
    }
    const path = cheapestPath(here, 4, (t, a, b) => {
      let square = 0;
      for (let k = 0; k < 6; k++) square += (options[(t * 4 + b) * 6 + k]! - options[(t * 4 - 4 + a) * 6 + k]!) ** 2;
      return square / (2 * WANDER * (problem.timesS[t]! - problem.timesS[t - 1]!));
    });
    for (let t = 0; t < frames; t++) {
      const at = (t * 4 + path[t]!) * 6;
      figure.directions.set(options.subarray(at, at + 6), (t * BONE_COUNT + limb * 2) * 3);
    }
  }
}

/** The two unit directions that fit a bone's projection: away from the camera, toward it. */
function bothWays(problem: Problem, figure: Figure, t: number, bone: number, length: number): [Triple, Triple] {
  const camera = problem.cameras[0]!;
  const depth = figure.free[t * 12 + 2]!;
  const along = (axis: number): number =>
    ((camera.image[(t * POINT_COUNT + BONE_END[bone]!) * 2 + axis]! - camera.image[(t * POINT_COUNT + BONE_START[bone]!) * 2 + axis]!) * depth) / camera.focalPx;
  const x = along(0);
  const y = along(1);
  const flat = Math.hypot(x, y);
  const missing = Math.sqrt(Math.max(0, (SHORTENED * length) ** 2 - flat * flat));
  const size = Math.hypot(flat, missing);
  if (!(size > 1e-6)) return [[0, 1, 0], [0, 1, 0]];
  return [[x / size, y / size, missing / size], [x / size, y / size, -missing / size]];
}

function costOf(problem: Problem, figure: Figure, t: number, limb: number, upper: Triple, lower: Triple, lengths: readonly number[]): number {
  const bone = limb * 2;
  const isArm = limb < 2;
  let cost = 0;
  for (const [k, d] of [upper, lower].entries()) {
    const { gain } = problem.habits.depth[HABIT_OF_VECTOR[bone + k]!]!;
    const measured = problem.cameras[0]!.depth[t * DEPTH_VECTORS + bone + k]!;
    const sigmaM = problem.cameras[0]!.depthSigmaM[t * DEPTH_VECTORS + bone + k]!;
    if (Number.isNaN(measured)) continue;
    cost += problem.cameras[0]!.depthWeight[t * DEPTH_VECTORS + bone + k]! * lossCost('cauchy', DEPTH_CAUCHY, (measured - gain * lengths[LENGTH_OF_BONE[bone + k]!]! * d[2]) / sigmaM);
  }
  cost += bendCost(problem, t, limb, upper, lower);
  const bend = Math.hypot(lower[0] - upper[0], lower[1] - upper[1], lower[2] - upper[2]);
  cost += lossCost('cauchy', STRAIGHT_CAUCHY, isArm ? (bend - STRAIGHT_ELBOW) / STRAIGHT_ELBOW_SIGMA : (bend - STRAIGHT_KNEE) / STRAIGHT_KNEE_SIGMA);
  const h = unit(figure.free, t * 12 + HIP_AT);
  const s = unit(figure.free, t * 12 + SPINE_AT);
  const forward = cross(h, s);
  if (isArm) {
    const off = Math.hypot(upper[0] + s[0], upper[1] + s[1], upper[2] + s[2]);
    cost += lossCost('cauchy', HANGING_CAUCHY, (off - HANGING) / HANGING_SIGMA);
    const down: Triple = [-s[0], -s[1], -s[2]];
    if (1 + dot(down, upper) > 0.3) {
      const past = Math.min(0, carried(lower, down, upper, forward).value + ELBOW_BACK) / ELBOW_BACK_SIGMA;
      cost += Math.min(LIMIT_CAP, past * past);
    }
  } else {
    const past = Math.min(0, dot(cross(upper, lower), h)) / KNEE_SIGMA;
    const back = Math.max(0, -dot(upper, forward) - HIP_BACK) / HIP_BACK_SIGMA;
    cost += Math.min(LIMIT_CAP, past * past) + Math.min(LIMIT_CAP, back * back);
  }
  return cost;
}

/** What the reader's bend says: of an arm that points at the lens it often knows how far it is bent where it can't tell which way it leans. */
function bendCost(problem: Problem, t: number, limb: number, upper: Triple, lower: Triple): number {
  const { read, depthWeight } = problem.cameras[0]!;
  if (read === null) return 0;
  const sigma = BEND_WIDER * read.bendSigmaRad[t * LIMB_COUNT + limb]!;
  if (!Number.isFinite(sigma)) return 0;
  const off = read.bendRad[t * LIMB_COUNT + limb]! - Math.acos(Math.min(1, Math.max(-1, dot(upper, lower))));
  return depthWeight[t * DEPTH_VECTORS + limb * 2 + 1]! * lossCost('cauchy', BEND_CAUCHY, off / sigma);
}

const cross = (a: Triple, b: Triple): Triple => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
function unit(from: Float64Array, i: number): Triple {
  const by = 1 / (Math.hypot(from[i]!, from[i + 1]!, from[i + 2]!) || 1e-9);
  return [from[i]! * by, from[i + 1]! * by, from[i + 2]! * by];
}
