/** From the fitted figure to stage axes and the 33 landmarks that the rotation code reads. */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { FittedBody, SegmentLengths } from './fittedBody.ts';
import type { Figure } from './figure.ts';
import { acrossOf, gravityOf } from './gravity.ts';
import {
  FIGURE_LANDMARKS, LOG_LENGTH_AT, PITCH_AT, POINT, POINT_COUNT, ROLL_AT, TRUNK_LENGTH_AT,
} from './layout.ts';
import { describeFrames, type Predictors } from './predictors.ts';
import type { Problem } from './problem.ts';
import { NEAREST_M } from './residuals/image.ts';
import { fillHoles, quantile } from './series.ts';
import type { View } from './view.ts';

/** Landmarks that ride on a fitted joint as raw offsets: head on mid-shoulder, hands on wrists, feet on ankles. */
function carrierOf(landmark: number): number | 'midShoulder' {
  if (landmark <= LANDMARK.mouthRight) return 'midShoulder';
  const left = landmark % 2 === 1;
  if (landmark >= LANDMARK.leftPinky && landmark <= LANDMARK.rightThumb) return left ? LANDMARK.leftWrist : LANDMARK.rightWrist;
  return left ? LANDMARK.leftAnkle : LANDMARK.rightAnkle;
}

type Rest = Pick<FittedBody, 'pointsM' | 'rootM' | 'known' | 'contacts' | 'segmentLengthsM' | 'camera' | 'figureImage'> & Predictors;

/**
 * @param problem at full frame rate (one knot a frame)
 * @param rigid the figure with constant lengths and standing feet
 * @param views the cameras; the first is the one whose frame the figure lives in
 */
export function describeBody(problem: Problem, rigid: Figure, views: readonly View[]): Rest {
  const { frames, free, points, globals } = rigid;
  const track = views[0]!.track;
  const g = gravityOf(globals[PITCH_AT]!, globals[ROLL_AT]!);
  const across = acrossOf(g);
  // Rows of stage_from_camera: X toward the camera, Y up, Z to the left.
  const stage = [g.away.map((v) => -v), [...g.up], across.map((v) => -v)];
  const turn = (x: number, y: number, z: number, k: number): number => stage[k]![0]! * x + stage[k]![1]! * y + stage[k]![2]! * z;

  const offsets = rawOffsets(track.world, problem.timesS);
  const pointsM = new Float64Array(frames * LANDMARK_COUNT * 3);
  const rootM = new Float64Array(frames * 3);
  const figureOf = new Map(FIGURE_LANDMARKS.map((landmark, point) => [landmark, point]));
  for (let t = 0; t < frames; t++) {
    const f = t * 12;
    const about = (point: number, k: number): number => {
      const i = (t * POINT_COUNT + point) * 3;
      return turn(points[i]! - free[f]!, points[i + 1]! - free[f + 1]!, points[i + 2]! - free[f + 2]!, k);
    };
    for (let k = 0; k < 3; k++) {
      rootM[t * 3 + k] = turn(free[f]!, free[f + 1]!, free[f + 2]!, k);
      const shoulders = (about(POINT.leftShoulder, k) + about(POINT.rightShoulder, k)) / 2;
      for (let l = 0; l < LANDMARK_COUNT; l++) {
        const point = figureOf.get(l);
        const out = (t * LANDMARK_COUNT + l) * 3 + k;
        if (point !== undefined) {
          pointsM[out] = about(point, k);
          continue;
        }
        const o = (t * LANDMARK_COUNT + l) * 3;
        const carrier = carrierOf(l);
        pointsM[out] = (carrier === 'midShoulder' ? shoulders : about(figureOf.get(carrier)!, k))
          + turn(offsets[o]!, offsets[o + 1]!, offsets[o + 2]!, k);
      }
    }
  }
  settleRoot(rootM, pointsM, problem.planted, track.found);

  const length = (i: number): number => Math.exp(globals[LOG_LENGTH_AT + i]!);
  const segmentLengthsM: SegmentLengths = {
    upperArm: length(0), forearm: length(1), thigh: length(2), shank: length(3),
    hipHalfWidth: globals[TRUNK_LENGTH_AT]!, spine: globals[TRUNK_LENGTH_AT + 1]!, shoulderHalfWidth: globals[TRUNK_LENGTH_AT + 2]!,
  };
  return {
    pointsM, rootM, known: track.found.slice(), contacts: Uint8Array.from(problem.planted, (p) => (p > 0 ? 1 : 0)),
    ...describeFrames(problem, rigid, views), segmentLengthsM, figureImage: inPicture(rigid, views[0]!),
    camera: { pitchRad: globals[PITCH_AT]!, rollRad: globals[ROLL_AT]!, focalPx: views[0]!.focalPx, given: { pitch: false, roll: false, fov: false } },
  };
}

/** The figure's joints in the first camera's picture [T·12·2], fractions of the frame. */
function inPicture(rigid: Figure, view: View): Float32Array {
  const { points } = rigid;
  const { focalPx, track: { widthPx, heightPx } } = view;
  const out = new Float32Array((points.length / 3) * 2);
  for (let i = 0; i < points.length / 3; i++) {
    const by = focalPx / Math.max(NEAREST_M, points[i * 3 + 2]!);
    out[i * 2] = 0.5 + (by * points[i * 3]!) / widthPx;
    out[i * 2 + 1] = 0.5 + (by * points[i * 3 + 1]!) / heightPx;
  }
  return out;
}

/** Raw world offset of every carried landmark from its carrier [T·33·3], camera axes, holes bridged. */
function rawOffsets(world: Float32Array, timesS: Float64Array): Float64Array {
  const out = new Float64Array(world.length);
  for (let t = 0; t < timesS.length; t++) {
    for (let l = 0; l < LANDMARK_COUNT; l++) {
      const carrier = carrierOf(l);
      for (let k = 0; k < 3; k++) {
        const at = (landmark: number): number => world[(t * LANDMARK_COUNT + landmark) * 3 + k]!;
        const base = carrier === 'midShoulder' ? (at(LANDMARK.leftShoulder) + at(LANDMARK.rightShoulder)) / 2 : at(carrier);
        out[(t * LANDMARK_COUNT + l) * 3 + k] = at(l) - base;
      }
    }
  }
  fillHoles(out, LANDMARK_COUNT * 3, timesS);
  return out;
}

/** Level of the floor under the ankles: a low quantile, so that one bad frame does not sink it. */
const FLOOR_QUANTILE = 0.05;

/** Counts X and Z from the first found frame, and Y from the floor: the median level of standing feet, else the lowest feet. */
function settleRoot(rootM: Float64Array, pointsM: Float64Array, planted: Float64Array, found: Uint8Array): void {
  const frames = rootM.length / 3;
  const low = (t: number, foot: number): number => {
    const level = (landmark: number): number => pointsM[(t * LANDMARK_COUNT + landmark) * 3 + 1]!;
    const side = foot === 0
      ? [LANDMARK.leftHeel, LANDMARK.leftFootIndex] : [LANDMARK.rightHeel, LANDMARK.rightFootIndex];
    return rootM[t * 3 + 1]! + Math.min(...side.map(level));
  };
  const standing: number[] = [];
  const all: number[] = [];
  for (let t = 0; t < frames; t++) {
    for (let foot = 0; foot < 2; foot++) {
      if (planted[t * 2 + foot]! > 0) standing.push(low(t, foot));
      if (found[t] === 1) all.push(low(t, foot));
    }
  }
  const floor = standing.length > 0 ? quantile(standing, 0.5) : all.length > 0 ? quantile(all, FLOOR_QUANTILE) : 0;
  const first = Math.max(0, found.indexOf(1));
  const [x, z] = [rootM[first * 3]!, rootM[first * 3 + 2]!];
  for (let t = 0; t < frames; t++) {
    rootM[t * 3] = rootM[t * 3]! - x;
    rootM[t * 3 + 1] = rootM[t * 3 + 1]! - floor;
    rootM[t * 3 + 2] = rootM[t * 3 + 2]! - z;
  }
}
