/**
 * Joints placed in the picture: what a placed joint teaches about its landmark, as rows and as a shift of the landmark.
 *
 * In the frame itself the joint is held where it was put. There its landmark turns out to be b beside it; in the frames about, the
 * landmark is believed to be beside it by what is left of b (`spread.ts`), and the more surely the nearer: σ² = jitter² + bias²·(1 - share).
 * A landmark that isn't seen moves as the finished fit did.
 */
import type { Figure } from '../fit/figure.ts';
import type { PlaceRow } from '../fit/handSet.ts';
import { FIGURE_LANDMARKS, POINT_COUNT } from '../fit/layout.ts';
import type { Observations, Problem } from '../fit/problem.ts';
import { LANDMARK } from '../../pose/landmarks.ts';
import type { PlacedJoint } from './corrections.ts';
import { frameAt } from './moments.ts';
import { clockOf, spreadWords, type Word } from './spread.ts';

/** A placed joint is held within this share of a landmark's error: 0.3 px on a body 495 px high. Chosen: a person hits a pixel or two. */
const KEY_SHARE = 0.075;
/** A landmark whose offset from the fit steps by this many sigmas of a step from one frame to the next has jumped (chosen). */
const JUMP_SIGMAS = 3;
/** Shares below this are not worth a row. */
const LEAST_SHARE = 0.02;

export interface PlacedRows {
  readonly rows: readonly (PlaceRow & { readonly key: boolean })[];
  /** The first camera's landmarks shifted by what was learnt [T·12·2], pixels. */
  readonly image: Float64Array;
  /** Frames in which a joint was placed. */
  readonly keys: readonly number[];
}

/** The figure's joints among the placed ones; head, hands and feet are another matter (`carried.ts`). */
export function placedRows(problem: Problem, figure: Figure, widthPx: number, heightPx: number, placed: readonly PlacedJoint[]): PlacedRows {
  const camera = problem.cameras[0]!;
  const image = camera.image.slice();
  const rows: (PlaceRow & { key: boolean })[] = [];
  const keys: number[] = [];
  for (let point = 0; point < POINT_COUNT; point++) {
    const own = placed.filter(({ landmark }) => LANDMARK[landmark] === FIGURE_LANDMARKS[point]);
    if (own.length === 0) continue;
    const path = likelyPath(camera, figure, point);
    const words = own.flatMap(({ timeS, x, y }): Word[] => {
      const frame = frameAt(problem.timesS, timeS);
      if (frame < 0) return [];
      const at = [(x - 0.5) * widthPx, (y - 0.5) * heightPx];
      return [{ frame, values: at.map((put, axis) => put - steady(path, frame, axis)) }];
    });
    if (words.length === 0) continue;
    const largest = Math.max(...words.map(({ values }) => Math.hypot(...values)), camera.stepSigmaPx);
    const clock = clockOf(problem.timesS, speedOf(figure, point, problem.timesS), jumpsOf(camera, figure, point, largest));
    const { values, share } = spreadWords(clock, words);
    const isKey = new Set(words.map(({ frame }) => frame));
    for (let t = 0; t < problem.frames; t++) {
      if (share[t]! < LEAST_SHARE) continue;
      const i = (t * POINT_COUNT + point) * 2;
      const key = isKey.has(t);
      const at = [0, 1].map((axis) => steady(path, t, axis) + values[t * 2 + axis]!);
      for (let axis = 0; axis < 2; axis++) image[i + axis] = image[i + axis]! + values[t * 2 + axis]!;
      const square = camera.stepSigmaPx ** 2 / 2 + camera.sigmaPx ** 2 * (1 - share[t]!);
      const weight = problem.evidence[t]! + (1 - problem.evidence[t]!) * share[t]!;
      rows.push({ key, frame: t, point, x: at[0]!, y: at[1]!, sigmaPx: key ? KEY_SHARE * camera.sigmaPx : Math.sqrt(square / weight) });
      if (key) keys.push(t);
    }
  }
  return { rows, image, keys: [...new Set(keys)].sort((a, b) => a - b) };
}

/** Where the fit has a joint in the picture, pixels about its middle. */
export function seenAt(focalPx: number, figure: Figure, frame: number, point: number): readonly [number, number] {
  const i = (frame * POINT_COUNT + point) * 3;
  const by = focalPx / figure.points[i + 2]!;
  return [by * figure.points[i]!, by * figure.points[i + 1]!];
}

/** The landmark as far as it is seen, the fit as far as it is not [T·2]. */
function likelyPath(camera: Observations, figure: Figure, point: number): Float64Array {
  const path = new Float64Array(figure.frames * 2);
  for (let t = 0; t < figure.frames; t++) {
    const fit = seenAt(camera.focalPx, figure, t, point);
    const i = t * POINT_COUNT + point;
    const seen = camera.weight[i]!;
    for (let axis = 0; axis < 2; axis++) path[t * 2 + axis] = fit[axis]! + (seen > 0 ? seen * (camera.image[i * 2 + axis]! - fit[axis]!) : 0);
  }
  return path;
}

/** Five-point quadratic smoothing (Savitzky and Golay 1964), so that one frame's jitter is not taken for bias. */
const STEADY = [-3, 12, 17, 12, -3];
function steady(path: Float64Array, frame: number, axis: number): number {
  if (frame < 2 || frame * 2 + 4 >= path.length) return path[frame * 2 + axis]!;
  return STEADY.reduce((sum, weight, k) => sum + (weight / 35) * path[(frame - 2 + k) * 2 + axis]!, 0);
}

/** How fast the fit moves a joint across the picture [T], metres a second at its depth. */
export function speedOf(figure: Figure, point: number, timesS: Float64Array): Float64Array {
  const speed = new Float64Array(figure.frames);
  for (let t = 1; t < figure.frames; t++) {
    const [a, b] = [((t - 1) * POINT_COUNT + point) * 3, (t * POINT_COUNT + point) * 3];
    const across = (axis: number): number => figure.points[b + axis]! - figure.points[a + axis]!;
    speed[t] = Math.hypot(across(0), across(1)) / (timesS[t]! - timesS[t - 1]!);
  }
  if (figure.frames > 1) speed[0] = speed[1]!;
  return speed;
}

/** Ticks that a jump of the landmark adds [T]: all that was learnt is gone when the jump is as large as what was learnt. */
function jumpsOf(camera: Observations, figure: Figure, point: number, learntPx: number): Float64Array {
  const jumps = new Float64Array(figure.frames);
  for (let t = 1; t < figure.frames; t++) {
    const [i, j] = [t * POINT_COUNT + point, (t - 1) * POINT_COUNT + point];
    if (camera.weight[i] === 0 || camera.weight[j] === 0) continue;
    const [now, before] = [seenAt(camera.focalPx, figure, t, point), seenAt(camera.focalPx, figure, t - 1, point)];
    const step = Math.hypot(...[0, 1].map((axis) => camera.image[i * 2 + axis]! - now[axis]! - camera.image[j * 2 + axis]! + before[axis]!));
    if (step > JUMP_SIGMAS * camera.stepSigmaPx) jumps[t] = Math.min(1, step / learntPx);
  }
  return jumps;
}
