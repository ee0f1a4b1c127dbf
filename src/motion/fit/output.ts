/** From the fitted figure to stage axes and the 33 landmarks that the rotation code reads. */
import { LANDMARK, LANDMARK_COUNT } from '../../pose/landmarks.ts';
import type { FittedBody, SegmentLengths } from './fittedBody.ts';
import type { Figure } from './figure.ts';
import { acrossOf, gravityOf } from './gravity.ts';
import {
  FIGURE_LANDMARKS, LOG_LENGTH_AT, PITCH_AT, POINT_COUNT, ROLL_AT, SHOULDER_AT, SPINE_AT, TRUNK_LENGTH_AT,
} from './layout.ts';
import { layEnds } from './ends.ts';
import { FACE_COUNT, fitHeads, type Heads } from './head.ts';
import { describeFrames, type Predictors } from './predictors.ts';
import type { Problem } from './problem.ts';
import { NEAREST_M } from './residuals/image.ts';
import { fillHoles, quantile } from './series.ts';
import type { View } from './view.ts';

/** Landmarks that ride on a fitted joint as raw offsets: hands on wrists, feet on ankles. */
export function carrierOf(landmark: number): number {
  const left = landmark % 2 === 1;
  if (landmark >= LANDMARK.leftPinky && landmark <= LANDMARK.rightThumb) return left ? LANDMARK.leftWrist : LANDMARK.rightWrist;
  return left ? LANDMARK.leftAnkle : LANDMARK.rightAnkle;
}

/**
 * Changes what rides on the figure, in place; the first camera's frame, metres: the offsets [T·33·3] of hands and feet from the joints
 * that carry them, and the places [T·11·3] of the face's landmarks.
 */
export type AdjustCarried = (figure: Figure, offsets: Float64Array, face: Float64Array) => void;

type Rest = Pick<FittedBody, 'pointsM' | 'rootM' | 'known' | 'contacts' | 'segmentLengthsM' | 'camera' | 'headResidualPx' | 'figureImage'> & Predictors;

/**
 * @param problem at full frame rate (one knot a frame)
 * @param rigid the figure with constant lengths and standing feet
 * @param views the cameras; the first is the one whose frame the figure lives in
 * @param adjust what a person said about head, hands and feet
 * @param laid the heads, where they have been laid before
 */
export function describeBody(problem: Problem, rigid: Figure, views: readonly View[], adjust: AdjustCarried | null = null, laid: LaidHeads = layHeads(rigid, views[0]!)): Rest {
  const { frames, free, points, globals } = rigid;
  const track = views[0]!.track;
  const g = gravityOf(globals[PITCH_AT]!, globals[ROLL_AT]!);
  const across = acrossOf(g);
  // Rows of stage_from_camera: X toward the camera, Y up, Z to the left.
  const stage = [g.away.map((v) => -v), [...g.up], across.map((v) => -v)];
  const turn = (x: number, y: number, z: number, k: number): number => stage[k]![0]! * x + stage[k]![1]! * y + stage[k]![2]! * z;

  const offsets = rawOffsets(track.world, problem.timesS);
  layEnds(offsets, rigid, views[0]!, problem.planted, g, problem.timesS);
  const heads = headsAt(laid, rigid);
  const face = heads.pointsM;
  adjust?.(rigid, offsets, face);
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
      for (let l = 0; l < LANDMARK_COUNT; l++) {
        const point = figureOf.get(l);
        const out = (t * LANDMARK_COUNT + l) * 3 + k;
        if (l < FACE_COUNT) {
          const i = (t * FACE_COUNT + l) * 3;
          pointsM[out] = turn(face[i]! - free[f]!, face[i + 1]! - free[f + 1]!, face[i + 2]! - free[f + 2]!, k);
          continue;
        }
        if (point !== undefined) {
          pointsM[out] = about(point, k);
          continue;
        }
        const o = (t * LANDMARK_COUNT + l) * 3;
        pointsM[out] = about(figureOf.get(carrierOf(l))!, k) + turn(offsets[o]!, offsets[o + 1]!, offsets[o + 2]!, k);
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
    pointsM, rootM, known: track.found.slice(), contacts: Uint8Array.from(problem.standing, (p) => (p > 0 ? 1 : 0)),
    ...describeFrames(problem, rigid, views), headResidualPx: heads.residualPx, segmentLengthsM, figureImage: inPicture(rigid, views[0]!),
    camera: { pitchRad: globals[PITCH_AT]!, rollRad: globals[ROLL_AT]!, pitchSigmaRad: Number.NaN, rollSigmaRad: Number.NaN, focalPx: views[0]!.focalPx, given: { pitch: false, roll: false, fov: false } },
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

/** The head rides above the mid-shoulder at this share of the spine's length (chosen: 18 cm of 50). */
const NECK_SHARE = 0.36;

/** Heads laid over the picture, and the depth [T] at which each was put. */
export interface LaidHeads extends Heads {
  readonly depthM: Float64Array;
}

/** The same heads in the same place of the picture, at the depth where a figure that was corrected since has them. */
function headsAt({ pointsM, residualPx, depthM }: LaidHeads, { free }: Figure): Heads {
  return { residualPx, pointsM: pointsM.map((v, i) => {
    const t = Math.floor(i / (FACE_COUNT * 3));
    return v * (headDepth(free, t * 12) / depthM[t]!);
  }) };
}

function headDepth(free: Float64Array, f: number): number {
  return free[f + 2]! + (1 + NECK_SHARE) * free[f + SPINE_AT + 2]!;
}

/** Heads laid over the picture at the fitted body's depth; frames in which nobody was found keep the head's place against the mid-hip, bridged. */
export function layHeads(rigid: Figure, view: View): LaidHeads {
  const { frames, free } = rigid;
  const chest = new Float64Array(frames * 9);
  const depthM = new Float64Array(frames);
  for (let t = 0; t < frames; t++) {
    const f = t * 12;
    const read = (at: number): number[] => [free[f + at]!, free[f + at + 1]!, free[f + at + 2]!];
    const unit = (v: readonly number[]): number[] => v.map((x) => x / (Math.hypot(...v) || 1e-9));
    const left = unit(read(SHOULDER_AT));
    const spine = read(SPINE_AT);
    const lift = spine.reduce((sum, x, k) => sum + x * left[k]!, 0);
    const up = unit(spine.map((x, k) => x - lift * left[k]!));
    const forward = [left[1]! * up[2]! - left[2]! * up[1]!, left[2]! * up[0]! - left[0]! * up[2]!, left[0]! * up[1]! - left[1]! * up[0]!];
    chest.set([...forward, ...up, ...left], t * 9);
    depthM[t] = headDepth(free, f);
  }
  const heads = fitHeads(view, chest, depthM);
  const about = heads.pointsM.map((v, i) => v - free[Math.floor(i / (FACE_COUNT * 3)) * 12 + (i % 3)]!);
  fillHoles(about, FACE_COUNT * 3, view.track.timesS);
  return { ...heads, depthM, pointsM: about.map((v, i) => v + free[Math.floor(i / (FACE_COUNT * 3)) * 12 + (i % 3)]!) };
}

/** Raw world offset of every carried landmark from its carrier [T·33·3], camera axes, holes bridged. */
function rawOffsets(world: Float32Array, timesS: Float64Array): Float64Array {
  const out = new Float64Array(world.length);
  for (let t = 0; t < timesS.length; t++) {
    for (let l = FACE_COUNT; l < LANDMARK_COUNT; l++) {
      const carrier = carrierOf(l);
      for (let k = 0; k < 3; k++) {
        out[(t * LANDMARK_COUNT + l) * 3 + k] = world[(t * LANDMARK_COUNT + l) * 3 + k]! - world[(t * LANDMARK_COUNT + carrier) * 3 + k]!;
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
