/**
 * A correction is worked in where it reaches and nowhere else: the frames about it are cut out of the finished fit, held fast at both
 * ends, solved, and put back.
 */
import { emptyFigure, settle, type Figure } from '../fit/figure.ts';
import type { HandSet, PinRow } from '../fit/handSet.ts';
import { BONE_COUNT, DEPTH_VECTORS, LIMB_COUNT, POINT_COUNT } from '../fit/layout.ts';
import type { Observations, Problem } from '../fit/problem.ts';
import { heldFast, pinAt } from './hold.ts';

/** Frames `from`..`to`, both included. */
export interface Window {
  readonly from: number;
  readonly to: number;
}

/** Frames held at an inner end of a window: as many as smoothness reaches back. */
const HELD = 2;

/** Overlapping or touching windows made one, in order. */
export function joinWindows(windows: readonly Window[]): Window[] {
  const out: Window[] = [];
  for (const next of [...windows].sort((a, b) => a.from - b.from)) {
    const last = out.at(-1);
    if (last !== undefined && next.from <= last.to + 1) out[out.length - 1] = { from: last.from, to: Math.max(last.to, next.to) };
    else out.push(next);
  }
  return out;
}

/** The frames within `reachS` of a span of frames. */
export function windowAbout(timesS: Float64Array, from: number, to: number, reachS: number): Window {
  let first = from;
  while (first > 0 && timesS[first - 1]! >= timesS[from]! - reachS) first--;
  let last = to;
  while (last < timesS.length - 1 && timesS[last + 1]! <= timesS[to]! + reachS) last++;
  return { from: first, to: last };
}

function cutCamera(camera: Observations, { from, to }: Window): Observations {
  const cut = (series: Float64Array, width: number): Float64Array => series.slice(from * width, (to + 1) * width);
  return {
    ...camera, image: cut(camera.image, POINT_COUNT * 2), weight: cut(camera.weight, POINT_COUNT), seen: cut(camera.seen, POINT_COUNT),
    depth: cut(camera.depth, DEPTH_VECTORS), depthSigmaM: cut(camera.depthSigmaM, DEPTH_VECTORS), depthWeight: cut(camera.depthWeight, DEPTH_VECTORS),
    elbowRad: cut(camera.elbowRad, 2),
    read: camera.read === null ? null : {
      lean: cut(camera.read.lean, DEPTH_VECTORS), leanSigma: cut(camera.read.leanSigma, DEPTH_VECTORS),
      bendRad: cut(camera.read.bendRad, LIMB_COUNT), bendSigmaRad: cut(camera.read.bendSigmaRad, LIMB_COUNT),
    },
  };
}

/** The problem of a window alone; the hand-set rows outside it fall away, and its inner ends are pinned to the figure. */
export function cutProblem(problem: Problem, figure: Figure, window: Window, handSet: HandSet): Problem {
  const { from, to } = window;
  const within = <Row extends { readonly frame: number }>(rows: readonly Row[]): Row[] =>
    rows.filter(({ frame }) => frame >= from && frame <= to).map((row) => ({ ...row, frame: row.frame - from }));
  const pins: PinRow[] = within(handSet.pins);
  const pin = (frame: number): void => void pins.push({ ...pinAt(figure, frame, heldFast()), frame: frame - from });
  for (let k = 0; k < HELD && from + k <= to; k++) {
    if (from > 0) pin(from + k);
    if (to < problem.frames - 1 && to - k > from + HELD - 1) pin(to - k);
  }
  const cut = (series: Float64Array, width: number): Float64Array => series.slice(from * width, (to + 1) * width);
  return {
    ...problem,
    frames: to - from + 1, timesS: cut(problem.timesS, 1), spanS: cut(problem.spanS, 1), evidence: cut(problem.evidence, 1),
    planted: cut(problem.planted, 2), standing: cut(problem.standing, 2), cameras: problem.cameras.map((camera) => cutCamera(camera, window)),
    handSet: {
      places: within(handSet.places), angles: within(handSet.angles), signs: within(handSet.signs), pins,
      firm: handSet.firm.filter((frame) => frame >= from && frame <= to).map((frame) => frame - from),
    },
  };
}

const PER_FRAME = [['free', 12], ['directions', BONE_COUNT * 3], ['slack', BONE_COUNT]] as const;

/** The figure of a window alone. */
export function cutFigure(figure: Figure, { from, to }: Window): Figure {
  const out = emptyFigure(to - from + 1, figure.globals.length);
  for (const [name, width] of PER_FRAME) out[name].set(figure[name].subarray(from * width, (to + 1) * width));
  out.globals.set(figure.globals);
  settle(out);
  return out;
}

/** Puts a window's figure back, in place; the whole still has to be settled. */
export function putBack(whole: Figure, part: Figure, { from }: Window): void {
  for (const [name, width] of PER_FRAME) whole[name].set(part[name], from * width);
}
