/**
 * A rigid head: the eleven landmarks of the face are laid over their places in the picture by turning and shifting one
 * template. A face seen in the picture tells its turn and nod by where nose, eyes, mouth and ears lie against each other, so
 * the model's squeezed depth is not asked.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import { HEAD_ALONE_RAD, HEAD_HUBER, HEAD_ITERATIONS, HEAD_SIGMA_M, HEAD_SIZE_RANGE } from './constants.ts';
import { FaceEquations } from './faceEquations.ts';
import { quantile } from './series.ts';
import type { View } from './view.ts';

export const FACE_COUNT = LANDMARK.mouthRight + 1;

/**
 * Where the landmarks sit in the head: forward, up, to the performer's left; metres; origin level with the base of the nose, between the ears.
 * Usual adult measures (nose to tragus 12 cm, eyes 62 mm apart, tragi 14 cm apart; from memory). Ears count least: the far one is
 * hidden and guessed.
 */
const TEMPLATE: readonly (readonly [landmark: number, forward: number, up: number, left: number, weight: number])[] = [
  [LANDMARK.nose, 0.115, 0.012, 0, 1],
  [LANDMARK.leftEyeInner, 0.08, 0.045, 0.017, 1], [LANDMARK.leftEye, 0.08, 0.045, 0.031, 1], [LANDMARK.leftEyeOuter, 0.071, 0.045, 0.044, 1],
  [LANDMARK.rightEyeInner, 0.08, 0.045, -0.017, 1], [LANDMARK.rightEye, 0.08, 0.045, -0.031, 1], [LANDMARK.rightEyeOuter, 0.071, 0.045, -0.044, 1],
  [LANDMARK.leftEar, -0.005, 0.03, 0.072, 0.3], [LANDMARK.rightEar, -0.005, 0.03, -0.072, 0.3],
  [LANDMARK.mouthLeft, 0.092, -0.02, 0.024, 1], [LANDMARK.mouthRight, 0.092, -0.02, -0.024, 1],
];

/**
 * T frames, in the camera's frame.
 *
 * - `pointsM[T·11·3]` the face's landmarks, rigid; NaN where nobody was found.
 * - `residualPx[T]` root mean square distance of the template from the landmarks in the picture; NaN there.
 */
export interface Heads {
  readonly pointsM: Float64Array;
  readonly residualPx: Float64Array;
}

type Matrix = Float64Array<ArrayBuffer>;

/**
 * @param chest [T·9] columns forward, up, left of the chest in the camera's frame: the start, and what holds a head whose face is not seen
 * @param depthM [T] depth at which the head is put
 */
export function fitHeads(view: View, chest: Matrix, depthM: Float64Array): Heads {
  const { track, focalPx } = view;
  const frames = track.timesS.length;
  const turns = Array.from({ length: frames }, (_, t) => chest.slice(t * 9, t * 9 + 9));
  const centres = new Float64Array(frames * 2);
  const residualPx = new Float64Array(frames).fill(Number.NaN);
  const sizes = new Float64Array(frames).fill(Number.NaN);
  let size = 1;
  // First with a size of its own in each frame, then all with the take's.
  for (const free of [true, false]) {
    let before: Matrix | undefined;
    for (let t = 0; t < frames; t++) {
      if (track.found[t] !== 1) continue;
      const prior = chest.subarray(t * 9, t * 9 + 9);
      // At first from the chest and from the frame before, whichever ends nearer the picture; then from what was found.
      const tries = (free && before !== undefined ? [before, turns[t]!] : [turns[t]!])
        .map((start) => layFace(view, t, start, prior, depthM[t]!, size, free));
      const best = tries.reduce((a, b) => (b.cost < a.cost ? b : a));
      turns[t] = best.turn;
      before = best.turn;
      centres.set([best.x, best.y], t * 2);
      residualPx[t] = (best.rms * focalPx) / depthM[t]!;
      sizes[t] = best.size;
    }
    if (free) size = quantile(sizes, 0.5);
  }
  const pointsM = new Float64Array(frames * FACE_COUNT * 3).fill(Number.NaN);
  for (let t = 0; t < frames; t++) {
    if (track.found[t] !== 1) continue;
    const m = turns[t]!;
    for (const [landmark, ...p] of TEMPLATE) {
      for (let k = 0; k < 3; k++) {
        const at = k === 2 ? depthM[t]! : centres[t * 2 + k]!;
        pointsM[(t * FACE_COUNT + landmark) * 3 + k] = at + size * (m[k]! * p[0] + m[3 + k]! * p[1] + m[6 + k]! * p[2]);
      }
    }
  }
  return { pointsM, residualPx };
}

interface Laid { readonly turn: Matrix; readonly x: number; readonly y: number; readonly size: number; readonly cost: number; readonly rms: number }

/** Gauss-Newton over three turns (from the left), two shifts and, where free, the size. Metres at the head's depth. */
function layFace({ track, focalPx }: View, t: number, start: Matrix, prior: Matrix, z: number, takeSize: number, free: boolean): Laid {
  const turn = start.slice();
  let size = takeSize;
  let [x, y, total] = [0, 0, 0];
  TEMPLATE.forEach(([landmark, , , , weight], i) => {
    const at = t * LANDMARK_COUNT + landmark;
    trust[i] = weight * Math.max(LEAST_SEEN, track.visibility[at]!);
    seen[2 * i] = ((track.image[at * 3]! - 0.5) * track.widthPx * z) / focalPx;
    seen[2 * i + 1] = ((track.image[at * 3 + 1]! - 0.5) * track.heightPx * z) / focalPx;
    x += trust[i]! * seen[2 * i]!;
    y += trust[i]! * seen[2 * i + 1]!;
    total += trust[i]!;
  });
  x /= total;
  y /= total;
  let cost = 0;
  let square = 0;
  const equations = new FaceEquations(free ? 6 : 5);
  for (let iteration = 0; iteration <= HEAD_ITERATIONS; iteration++) {
    equations.clear();
    cost = 0;
    square = 0;
    for (let i = 0; i < TEMPLATE.length; i++) {
      const [, forward, up, left] = TEMPLATE[i]!;
      const qx = size * (turn[0]! * forward + turn[3]! * up + turn[6]! * left);
      const qy = size * (turn[1]! * forward + turn[4]! * up + turn[7]! * left);
      const qz = size * (turn[2]! * forward + turn[5]! * up + turn[8]! * left);
      const near = z / (z + qz);
      const offX = (near * (x + qx) - seen[2 * i]!) / HEAD_SIGMA_M;
      const offY = (near * (y + qy) - seen[2 * i + 1]!) / HEAD_SIGMA_M;
      const length = Math.sqrt(offX * offX + offY * offY);
      const w = trust[i]! * (length > HEAD_HUBER ? HEAD_HUBER / length : 1);
      cost += trust[i]! * (length > HEAD_HUBER ? 2 * HEAD_HUBER * length - HEAD_HUBER ** 2 : length ** 2);
      square += trust[i]! * (length * HEAD_SIGMA_M) ** 2;
      const by = near / HEAD_SIGMA_M;
      // A small turn ω moves q by ω × q; the change of nearness is left out, a few per cent.
      equations.add(0, by * qz, -by * qy, by, 0, (by * qx) / size, offX, w);
      equations.add(-by * qz, 0, by * qx, 0, by, (by * qy) / size, offY, w);
    }
    // The chest, as a weak voice: half the sine of the turn between the two about each axis.
    const lean = turnBetween(prior, turn);
    const voice = 1 / HEAD_ALONE_RAD;
    for (let k = 0; k < 3; k++) {
      equations.add(k === 0 ? voice : 0, k === 1 ? voice : 0, k === 2 ? voice : 0, 0, 0, 0, lean[k]! * voice, 1);
      cost += (lean[k]! * voice) ** 2;
    }
    if (free) equations.add(0, 0, 0, 0, 0, 1 / HEAD_SIZE_RANGE, (size - 1) / HEAD_SIZE_RANGE, 1);
    if (iteration === HEAD_ITERATIONS) break;
    const step = equations.solve();
    if (step === null) break;
    apply(turn, step);
    x += step[3]!;
    y += step[4]!;
    if (free) size = Math.min(1.6, Math.max(0.6, size + step[5]!));
  }
  return { turn, x, y, size, cost, rms: Math.sqrt(square / total) };
}

/** Room for one face, used over again: some ten thousand are laid in a take. Places [11·2] in metres at the head's depth, and weights [11]. */
const seen = new Float64Array(TEMPLATE.length * 2);
const trust = new Float64Array(TEMPLATE.length);

/** A landmark the model calls hidden still says this much. */
const LEAST_SEEN = 0.05;

/** Rotation vector (small-angle form: sum of half cross products of the columns) that takes `from` to `to`. */
function turnBetween(from: Matrix, to: Matrix): [number, number, number] {
  const out: [number, number, number] = [0, 0, 0];
  for (let c = 0; c < 9; c += 3) {
    out[0] += (from[c + 1]! * to[c + 2]! - from[c + 2]! * to[c + 1]!) / 2;
    out[1] += (from[c + 2]! * to[c]! - from[c]! * to[c + 2]!) / 2;
    out[2] += (from[c]! * to[c + 1]! - from[c + 1]! * to[c]!) / 2;
  }
  return out;
}

/** Turns the columns of a rotation by the vector ω (Rodrigues). */
function apply(turn: Matrix, step: Float64Array): void {
  const angle = Math.hypot(step[0]!, step[1]!, step[2]!);
  if (angle < 1e-12) return;
  // No wild steps: the face is small and the start near.
  const by = Math.min(1, MOST_TURN_RAD / angle);
  const [wx, wy, wz] = [step[0]! / angle, step[1]! / angle, step[2]! / angle];
  const s = Math.sin(angle * by);
  const c = 1 - Math.cos(angle * by);
  for (let i = 0; i < 9; i += 3) {
    const [vx, vy, vz] = [turn[i]!, turn[i + 1]!, turn[i + 2]!];
    const along = wx * vx + wy * vy + wz * vz;
    turn[i] = vx + s * (wy * vz - wz * vy) + c * (wx * along - vx);
    turn[i + 1] = vy + s * (wz * vx - wx * vz) + c * (wy * along - vy);
    turn[i + 2] = vz + s * (wx * vy - wy * vx) + c * (wz * along - vz);
  }
}
const MOST_TURN_RAD = 0.5;
