/**
 * One state of the figure over the whole take, where its joints then are, and how to move it by a step of the solver.
 */
import {
  BONE_COUNT, DIRECTION_AT, FRAME_SIZE, LENGTH_OF_BONE, LOG_LENGTH_AT, POINT_COUNT,
} from './layout.ts';

/**
 * K frames (or knots), G unknowns of the take.
 *
 * - `free[K·12]` root, hip half-axis (to the performer's left), spine vector, shoulder half-axis; metres.
 * - `directions[K·8·3]` unit vectors down the bones.
 * - `slack[K·8]` how far a bone seems longer than it is, as a logarithm: the landmarks' own drift along the bone.
 * - `globals[G]` see layout.ts.
 * - `tangents[K·8·6]` two unit vectors square to each direction, in which its step is taken (made by {@link settle}).
 * - `points[K·12·3]` joints with the constant lengths; `seen[K·12·3]` joints with the slack, which is what the landmarks show
 *   (both made by {@link settle}).
 */
export interface Figure {
  readonly frames: number;
  readonly free: Float64Array;
  readonly directions: Float64Array;
  readonly slack: Float64Array;
  readonly globals: Float64Array;
  readonly tangents: Float64Array;
  readonly points: Float64Array;
  readonly seen: Float64Array;
}

/** A figure of zeros with room for `frames` frames and `globals` unknowns of the take. */
export function emptyFigure(frames: number, globals: number): Figure {
  return {
    frames,
    free: new Float64Array(frames * 12),
    directions: new Float64Array(frames * BONE_COUNT * 3),
    slack: new Float64Array(frames * BONE_COUNT),
    globals: new Float64Array(globals),
    tangents: new Float64Array(frames * BONE_COUNT * 6),
    points: new Float64Array(frames * POINT_COUNT * 3),
    seen: new Float64Array(frames * POINT_COUNT * 3),
  };
}

/** Brings the derived arrays (tangents, points, seen) up to date with the unknowns. */
export function settle(figure: Figure): void {
  const { frames, free, directions, slack, globals, tangents, points, seen } = figure;
  const lengths = [0, 0, 0, 0].map((_, i) => Math.exp(globals[LOG_LENGTH_AT + i]!));
  for (let i = 0; i < frames * BONE_COUNT; i++) writeTangents(directions, i * 3, tangents, i * 6);
  for (let t = 0; t < frames; t++) {
    const f = t * 12;
    const p = t * POINT_COUNT * 3;
    for (let k = 0; k < 3; k++) {
      const root = free[f + k]!;
      const hip = free[f + 3 + k]!;
      const chest = root + free[f + 6 + k]!;
      const half = free[f + 9 + k]!;
      points[p + k] = seen[p + k] = chest + half;
      points[p + 3 + k] = seen[p + 3 + k] = chest - half;
      points[p + 18 + k] = seen[p + 18 + k] = root + hip;
      points[p + 21 + k] = seen[p + 21 + k] = root - hip;
    }
    for (let b = 0; b < BONE_COUNT; b++) {
      const from = p + START_OFFSET[b]!;
      const to = p + END_OFFSET[b]!;
      const length = lengths[LENGTH_OF_BONE[b]!]!;
      const shown = length * Math.exp(slack[t * BONE_COUNT + b]!);
      const d = (t * BONE_COUNT + b) * 3;
      for (let k = 0; k < 3; k++) {
        points[to + k] = points[from + k]! + length * directions[d + k]!;
        seen[to + k] = seen[from + k]! + shown * directions[d + k]!;
      }
    }
  }
}
const START_OFFSET = [0, 6, 3, 9, 18, 24, 21, 27];
const END_OFFSET = [6, 12, 9, 15, 24, 30, 27, 33];

/** Two unit vectors square to `d` and to each other. Source: Duff et al. 2017, "Building an orthonormal basis, revisited" (formula from memory, held by a test). */
function writeTangents(d: Float64Array, at: number, out: Float64Array, to: number): void {
  const x = d[at]!;
  const y = d[at + 1]!;
  const z = d[at + 2]!;
  const sign = z >= 0 ? 1 : -1;
  const a = -1 / (sign + z);
  const b = x * y * a;
  out[to] = 1 + sign * x * x * a;
  out[to + 1] = sign * b;
  out[to + 2] = -sign * x;
  out[to + 3] = b;
  out[to + 4] = sign + y * y * a;
  out[to + 5] = -y;
}

/** Copies the unknowns (not the derived arrays) of one figure into another of the same size. */
export function copyUnknowns(from: Figure, to: Figure): void {
  to.free.set(from.free);
  to.directions.set(from.directions);
  to.slack.set(from.slack);
  to.globals.set(from.globals);
}

/**
 * Moves `from` by a step of the solver and writes the result, settled, into `to`.
 *
 * @param main [K·28] step of the frames' unknowns
 * @param slack [K·8] step of the slacks
 * @param border [G] step of the take's unknowns; shorter arrays leave the rest alone
 */
export function stepFigure(from: Figure, to: Figure, main: Float64Array, slack: Float64Array, border: Float64Array): void {
  const { frames } = from;
  for (let t = 0; t < frames; t++) {
    const row = t * FRAME_SIZE;
    for (let v = 0; v < 12; v++) to.free[t * 12 + v] = from.free[t * 12 + v]! + main[row + v]!;
    for (let b = 0; b < BONE_COUNT; b++) {
      const i = t * BONE_COUNT + b;
      const u = main[row + DIRECTION_AT + 2 * b]!;
      const v = main[row + DIRECTION_AT + 2 * b + 1]!;
      let square = 0;
      for (let k = 0; k < 3; k++) {
        const moved = from.directions[i * 3 + k]! + u * from.tangents[i * 6 + k]! + v * from.tangents[i * 6 + 3 + k]!;
        to.directions[i * 3 + k] = moved;
        square += moved * moved;
      }
      const by = 1 / Math.sqrt(square);
      for (let k = 0; k < 3; k++) to.directions[i * 3 + k] = to.directions[i * 3 + k]! * by;
      to.slack[i] = from.slack[i]! + slack[i]!;
    }
  }
  for (let g = 0; g < from.globals.length; g++) to.globals[g] = from.globals[g]! + (border[g] ?? 0);
  settle(to);
}
