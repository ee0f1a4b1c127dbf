/**
 * Step residual: how far a joint moved in the picture since the frame before, against how far its landmark moved.
 *
 * The landmarks' bias is alike in neighbouring frames and falls out of the difference, so quick moves are followed at the
 * precision of the jitter and not at that of the bias. Only for frames so close that this holds.
 *
 * Along the bone that ends in it a landmark slides, which the slack allows for but a step, which reaches over two frames, can't. Were it
 * taken for a move, the bone would lean in and out of depth with every pixel: seen from the side a length that is off by 1 % is 8°.
 * So along the bone a step counts for little. The shorter the bone looks, the less there is to slide, and the more such a step tells of depth.
 */
import { STEP_HUBER, STEP_SLIDE } from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_END, BONE_START, POINT_COUNT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Observations, Problem } from '../problem.ts';
import { NEAREST_M } from './image.ts';

/** Of each joint of POINT the one at the other end of the bone that ends in it; shoulders and hips have none: -1. */
const PARENT: readonly number[] = Array.from({ length: POINT_COUNT }, (_, p) => (BONE_END.includes(p) ? BONE_START[BONE_END.indexOf(p)]! : -1));

/**
 * Rows w·(Δ(f·X/Z) - Δx) with the constant lengths, Huber at 2, weighted by the lesser visibility of the two frames. w is a direction in the
 * picture over its sigma: of shoulders and hips x and y over σ_step; of the others along the bone over √(σ_step² + (.16·its length there)²),
 * and across it over σ_step.
 */
export function imageStepRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  if (!problem.useSteps) return;
  for (const camera of problem.cameras) {
    for (let t = 1; t < problem.frames; t++) {
      for (let p = 0; p < POINT_COUNT; p++) {
        const i = t * POINT_COUNT + p;
        const weight = Math.min(camera.weight[i]!, camera.weight[i - POINT_COUNT]!);
        if (weight === 0) continue;
        const plain = 1 / camera.stepSigmaPx;
        const [x, y] = boneInPicture(camera, t, p);
        const size = Math.sqrt(x * x + y * y);
        if (size === 0) {
          stepRow(camera, figure, rows, t, p, weight, plain, 0);
          stepRow(camera, figure, rows, t, p, weight, 0, plain);
        } else {
          const along = 1 / Math.sqrt(camera.stepSigmaPx ** 2 + (STEP_SLIDE * size) ** 2) / size;
          const across = plain / size;
          stepRow(camera, figure, rows, t, p, weight, x * along, y * along);
          stepRow(camera, figure, rows, t, p, weight, -y * across, x * across);
        }
      }
    }
  }
}

const NO_BONE: readonly [number, number] = [0, 0];

/** The bone that ends in a joint as its landmarks show it, pixels, mean of two frames; nothing without such a bone, or where its other end is unseen. */
function boneInPicture({ image, weight }: Observations, t: number, p: number): readonly [number, number] {
  const q = PARENT[p]!;
  const start = t * POINT_COUNT + q;
  if (q < 0 || weight[start]! === 0 || weight[start - POINT_COUNT]! === 0) return NO_BONE;
  const a = 2 * start;
  const b = 2 * (t * POINT_COUNT + p);
  const back = 2 * POINT_COUNT;
  return [
    (image[b]! - image[a]! + image[b - back]! - image[a - back]!) / 2,
    (image[b + 1]! - image[a + 1]! + image[b + 1 - back]! - image[a + 1 - back]!) / 2,
  ];
}

/** One row: the step in the direction (wx, wy), which is over its sigma. */
function stepRow(camera: Observations, figure: Figure, rows: NormalEquations, t: number, p: number, weight: number, wx: number, wy: number): void {
  const { image } = camera;
  const i = (t * POINT_COUNT + p) * 2;
  const j = i - 2 * POINT_COUNT;
  rows.open(t);
  const now = put(camera, figure, rows, t, p, wx, wy, 1);
  const before = put(camera, figure, rows, t - 1, p, wx, wy, -1);
  const moved = wx * (image[i]! - image[j]!) + wy * (image[i + 1]! - image[j + 1]!);
  rows.emit(now - before - moved, weight, 'huber', STEP_HUBER);
}

function put(camera: Observations, figure: Figure, rows: NormalEquations, t: number, p: number, wx: number, wy: number, sign: number): number {
  const { rotation: r, translation: c } = camera;
  const at = (t * POINT_COUNT + p) * 3;
  const x = figure.points[at]!;
  const y = figure.points[at + 1]!;
  const z = figure.points[at + 2]!;
  const u = r[0]! * x + r[1]! * y + r[2]! * z + c[0]!;
  const v = r[3]! * x + r[4]! * y + r[5]! * z + c[1]!;
  const w = Math.max(NEAREST_M, r[6]! * x + r[7]! * y + r[8]! * z + c[2]!);
  const by = camera.focalPx / w;
  const value = by * (wx * u + wy * v);
  const a = sign * by * wx;
  const b = sign * by * wy;
  const d = (-sign * value) / w;
  rows.point(t, p, a * r[0]! + b * r[3]! + d * r[6]!, a * r[1]! + b * r[4]! + d * r[7]!, a * r[2]! + b * r[5]! + d * r[8]!, false);
  return value;
}
