/**
 * A figure of our own with joints that are set, and the landmarks it would show: forward kinematics written apart from the
 * code under test, so that rotations can go in and must come out again.
 *
 * Stage axes (x toward the camera, y up, z to the performer's right), metres, origin mid-hip; the camera sees it in
 * parallel rays, 400 px to the metre.
 */
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import { fromAxisAngle, fromBasis, IDENTITY, multiply, power, conjugate, rotate, type Quat } from '../../src/numeric/quaternion.ts';
import { add, cross, reject, scale, unit, type Vec3 } from '../../src/numeric/vector3.ts';
import { LANDMARK, LANDMARK_COUNT, LANDMARK_NAMES, type LandmarkName } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

const Z: Vec3 = [0, 0, 1];
export const turnX = (rad: number): Quat => fromAxisAngle([1, 0, 0], rad);
export const turnY = (rad: number): Quat => fromAxisAngle([0, 1, 0], rad);
export const turnZ = (rad: number): Quat => fromAxisAngle(Z, rad);

/** What can be set. Hinges in radians of flexion; everything not set is at rest. */
export interface FigurePose {
  readonly pelvis?: Quat;
  /** Lean of the trunk to the figure's right within the pelvis' own yz plane, radians. */
  readonly lean?: number;
  /** Turn of the line of the shoulders against the pelvis. */
  readonly shoulders?: Quat;
  /** Head against chest. */
  readonly head?: Quat;
  readonly leftShoulder?: Quat; readonly leftElbow?: number; readonly leftWrist?: Quat;
  readonly rightShoulder?: Quat; readonly rightElbow?: number; readonly rightWrist?: Quat;
  readonly leftHip?: Quat; readonly leftKnee?: number; readonly leftAnkle?: Quat;
  readonly rightHip?: Quat; readonly rightKnee?: number; readonly rightAnkle?: Quat;
  /** Middle of the hips on the stage, metres; shown in the picture only. */
  readonly rootM?: Vec3;
}

export interface Figure {
  readonly rotations: Readonly<Record<JointName, Quat>>;
  readonly points: Readonly<Record<LandmarkName, Vec3>>;
}

const HIP = 0.09;
const SHOULDER = 0.18;
const TRUNK = 0.5;
const THIGH = 0.42;
const SHANK = 0.41;
const UPPER_ARM = 0.28;
const FOREARM = 0.25;

/** The figure's true joint rotations and its landmarks. */
export function figure(pose: FigurePose): Figure {
  const pelvis = pose.pelvis ?? IDENTITY;
  const lean = pose.lean ?? 0;
  const up = rotate(pelvis, [0, Math.cos(lean), Math.sin(lean)]);
  const across = rotate(multiply(pelvis, pose.shoulders ?? IDENTITY), Z);
  const chestY = unit(reject(up, across))!;
  const chest = fromBasis(cross(chestY, across), chestY, across);
  const trunkHalf = power(multiply(conjugate(pelvis), chest), 0.5);
  const headTurn = pose.head ?? IDENTITY;
  const head = multiply(chest, headTurn);
  const headHalf = power(headTurn, 0.5);
  const rotations: Partial<Record<JointName, Quat>> = {
    pelvis, spine: trunkHalf, chest: trunkHalf, neck: headHalf, head: headHalf, leftClavicle: IDENTITY, rightClavicle: IDENTITY,
  };
  const points: Partial<Record<LandmarkName, Vec3>> = {};
  const midShoulder = scale(up, TRUNK);
  const skull = add(midShoulder, rotate(head, [0, 0.22, 0]));
  const face = (v: Vec3): Vec3 => add(skull, rotate(head, v));
  // eyes as far above the ears as the nose is below
  Object.assign(points, {
    leftEar: face([0, 0, -0.07]), rightEar: face([0, 0, 0.07]), nose: face([0.11, -0.02, 0]),
    leftEye: face([0.09, 0.02, -0.03]), rightEye: face([0.09, 0.02, 0.03]),
    leftEyeInner: face([0.09, 0.02, -0.02]), rightEyeInner: face([0.09, 0.02, 0.02]),
    leftEyeOuter: face([0.09, 0.02, -0.04]), rightEyeOuter: face([0.09, 0.02, 0.04]),
    mouthLeft: face([0.09, -0.06, -0.02]), mouthRight: face([0.09, -0.06, 0.02]),
  });
  for (const side of ['left', 'right'] as const) {
    const out = side === 'right' ? 1 : -1;
    const shoulderQ = pose[`${side}Shoulder`] ?? IDENTITY;
    const elbowQ = turnZ(pose[`${side}Elbow`] ?? 0);
    const wristQ = pose[`${side}Wrist`] ?? IDENTITY;
    const upperArm = multiply(chest, shoulderQ);
    const forearm = multiply(upperArm, elbowQ);
    const hand = multiply(forearm, wristQ);
    const shoulder = add(midShoulder, scale(across, out * SHOULDER));
    const elbow = add(shoulder, rotate(upperArm, [0, -UPPER_ARM, 0]));
    const wrist = add(elbow, rotate(forearm, [0, -FOREARM, 0]));
    const hipQ = pose[`${side}Hip`] ?? IDENTITY;
    // the shank swings back
    const kneeQ = turnZ(-(pose[`${side}Knee`] ?? 0));
    const ankleQ = pose[`${side}Ankle`] ?? IDENTITY;
    const thigh = multiply(pelvis, hipQ);
    const shank = multiply(thigh, kneeQ);
    const foot = multiply(shank, ankleQ);
    const hip = rotate(pelvis, [0, 0, out * HIP]);
    const knee = add(hip, rotate(thigh, [0, -THIGH, 0]));
    const ankle = add(knee, rotate(shank, [0, -SHANK, 0]));
    const inHand = (v: Vec3): Vec3 => add(wrist, rotate(hand, v));
    const inFoot = (v: Vec3): Vec3 => add(ankle, rotate(foot, v));
    Object.assign(rotations, {
      [`${side}Shoulder`]: shoulderQ, [`${side}Elbow`]: elbowQ, [`${side}Wrist`]: wristQ,
      [`${side}Hip`]: hipQ, [`${side}Knee`]: kneeQ, [`${side}Ankle`]: ankleQ,
    });
    // palms to the thighs: the thumb and index lie forward
    Object.assign(points, {
      [`${side}Shoulder`]: shoulder, [`${side}Elbow`]: elbow, [`${side}Wrist`]: wrist,
      [`${side}Index`]: inHand([0.03, -0.085, 0]), [`${side}Pinky`]: inHand([-0.03, -0.085, 0]),
      [`${side}Thumb`]: inHand([0.05, -0.06, 0]),
      [`${side}Hip`]: hip, [`${side}Knee`]: knee, [`${side}Ankle`]: ankle,
      [`${side}Heel`]: inFoot([-0.05, -0.07, 0]), [`${side}FootIndex`]: inFoot([0.17, -0.07, 0]),
    });
  }
  return { rotations: rotations as Record<JointName, Quat>, points: points as Record<LandmarkName, Vec3> };
}

export interface TrackOptions {
  /** Standard deviation of the landmark noise, metres (pixels follow). */
  readonly noiseM?: number;
  readonly seed?: number;
}

export const WIDTH_PX = 800;
export const HEIGHT_PX = 1000;
const PX_PER_M = 400;

/** The track that a faultless model (or one that trembles) would make of these poses; everything visible. */
export function trackOf(poses: readonly FigurePose[], timesS: ArrayLike<number>, options: TrackOptions = {}): Track {
  const track = emptyTrack('full', WIDTH_PX, HEIGHT_PX, Float64Array.from(timesS));
  const random = gaussian(options.seed ?? 1);
  const noise = options.noiseM ?? 0;
  poses.forEach((pose, t) => {
    const { points } = figure(pose);
    const root = pose.rootM ?? [0, 0, 0];
    track.found[t] = 1;
    LANDMARK_NAMES.forEach((name) => {
      const at = t * LANDMARK_COUNT + LANDMARK[name];
      const p = points[name];
      const e: Vec3 = noise === 0 ? [0, 0, 0] : [noise * random(), noise * random(), noise * random()];
      const [x, y, z] = [p[0] + e[0], p[1] + e[1], p[2] + e[2]];
      track.world.set([-z, -y, -x], at * 3);
      track.image.set([0.5 - ((z + root[2]) * PX_PER_M) / WIDTH_PX, 0.5 - ((y + root[1]) * PX_PER_M) / HEIGHT_PX, 0], at * 3);
      track.visibility[at] = 0.95;
    });
  });
  return track;
}

/** Marks a frame as one in which nobody was found. */
export function loseFrame(track: Track, t: number): void {
  track.found[t] = 0;
  track.world.fill(Number.NaN, t * LANDMARK_COUNT * 3, (t + 1) * LANDMARK_COUNT * 3);
  track.image.fill(Number.NaN, t * LANDMARK_COUNT * 3, (t + 1) * LANDMARK_COUNT * 3);
  track.visibility.fill(0, t * LANDMARK_COUNT, (t + 1) * LANDMARK_COUNT);
}

/** Evenly spaced times, seconds. */
export function evenTimes(count: number, fps: number): Float64Array {
  return Float64Array.from({ length: count }, (_, k) => k / fps);
}

/** Rotation of one joint in one frame of `[T·J·4]`. */
export function jointAt(rotations: Float64Array, frame: number, joint: JointName): Quat {
  const at = (frame * JOINT_COUNT + JOINT[joint]) * 4;
  return [rotations[at]!, rotations[at + 1]!, rotations[at + 2]!, rotations[at + 3]!];
}

/** Seeded normal numbers (mulberry32 and Box-Muller; algorithms from memory). */
export function gaussian(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
