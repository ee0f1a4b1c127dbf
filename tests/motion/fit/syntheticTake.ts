/**
 * Takes with known truth: a figure posed by simple curves, seen by a pinhole camera, read by a detector with the faults that
 * were measured on the real one (docs/method-fit.md): slow bias and jitter in the picture, depth squeezed to 0.6 with slow
 * errors, straight joints read as bent.
 */
import { LANDMARK, LANDMARK_COUNT } from '../../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../../src/pose/track.ts';

export type Triple = [number, number, number];

/** A pose in body axes of the stage: X forward of the performer, Y up, Z to the performer's right; angles in degrees. */
export interface SyntheticPose {
  /** Mid-hip over the floor: forward, up, right; metres. */
  root: Triple;
  /** Turn of the whole body about up (positive to the performer's left), and of the trunk forward. */
  yaw: number;
  trunk: number;
  /** Turn of the whole figure forward about the hips' line (lying: 90 on the face, -90 on the back). */
  pitch: number;
  arms: readonly [ArmPose, ArmPose];
  legs: readonly [LegPose, LegPose];
}
export interface ArmPose { forward: number; sideways: number; elbow: number }
export interface LegPose { forward: number; sideways: number; knee: number }

export const STANDING: SyntheticPose = {
  root: [0, 0.915, 0], yaw: 0, trunk: 0, pitch: 0,
  arms: [{ forward: 0, sideways: 8, elbow: 8 }, { forward: 0, sideways: 8, elbow: 8 }],
  legs: [{ forward: 0, sideways: 0, knee: 0 }, { forward: 0, sideways: 0, knee: 0 }],
};

export const BODY = { hipHalf: 0.09, spine: 0.505, shoulderHalf: 0.178, upperArm: 0.285, forearm: 0.255, thigh: 0.425, shank: 0.412 };

const rad = (deg: number): number => (deg * Math.PI) / 180;
const add = (a: Triple, b: Triple, by = 1): Triple => [a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]];
/** Turns about X (forward), Y (up), Z (right), right-handed. */
const aboutX = (v: Triple, a: number): Triple => [v[0], v[1] * Math.cos(a) - v[2] * Math.sin(a), v[1] * Math.sin(a) + v[2] * Math.cos(a)];
const aboutY = (v: Triple, a: number): Triple => [v[0] * Math.cos(a) + v[2] * Math.sin(a), v[1], -v[0] * Math.sin(a) + v[2] * Math.cos(a)];
const aboutZ = (v: Triple, a: number): Triple => [v[0] * Math.cos(a) - v[1] * Math.sin(a), v[0] * Math.sin(a) + v[1] * Math.cos(a), v[2]];

/** The 33 landmarks of a pose in the stage (X forward, Y up, Z to the performer's right), metres. */
export function landmarksOf(pose: SyntheticPose): Triple[] {
  const out: Triple[] = new Array<Triple>(LANDMARK_COUNT).fill([0, 0, 0]);
  const whole = (v: Triple): Triple => aboutY(aboutZ(v, -rad(pose.pitch)), rad(pose.yaw));
  const trunk = (v: Triple): Triple => whole(aboutZ(v, -rad(pose.trunk)));
  const chest = add(pose.root, trunk([0, BODY.spine, 0]));
  for (const [side, sign] of [[0, -1], [1, 1]] as const) {
    const arm = pose.arms[side];
    const shoulder = add(chest, trunk([0, 0, sign * BODY.shoulderHalf]));
    const turnArm = (v: Triple): Triple => trunk(aboutX(aboutZ(v, rad(arm.forward)), -sign * rad(arm.sideways)));
    const elbow = add(shoulder, turnArm([0, -BODY.upperArm, 0]));
    const wrist = add(elbow, turnArm(aboutZ([0, -BODY.forearm, 0], rad(arm.elbow))));
    const finger = add(wrist, turnArm(aboutZ([0, -0.09, 0], rad(arm.elbow))));
    const leg = pose.legs[side];
    const hip = add(pose.root, whole([0, 0, sign * BODY.hipHalf]));
    const turnLeg = (v: Triple): Triple => whole(aboutX(aboutZ(v, rad(leg.forward)), -sign * rad(leg.sideways)));
    const knee = add(hip, turnLeg([0, -BODY.thigh, 0]));
    const ankle = add(knee, turnLeg(aboutZ([0, -BODY.shank, 0], -rad(leg.knee))));
    const set = (names: readonly (keyof typeof LANDMARK)[], at: Triple): void => { for (const name of names) out[LANDMARK[name]] = at; };
    const heel = add(ankle, whole([-0.05, -0.078, 0]));
    const toe = add(ankle, whole([0.15, -0.078, 0]));
    if (side === 0) {
      set(['leftShoulder'], shoulder); set(['leftElbow'], elbow); set(['leftWrist'], wrist); set(['leftHip'], hip);
      set(['leftPinky', 'leftIndex', 'leftThumb'], finger); set(['leftKnee'], knee); set(['leftAnkle'], ankle);
      set(['leftHeel'], heel); set(['leftFootIndex'], toe);
    } else {
      set(['rightShoulder'], shoulder); set(['rightElbow'], elbow); set(['rightWrist'], wrist); set(['rightHip'], hip);
      set(['rightPinky', 'rightIndex', 'rightThumb'], finger); set(['rightKnee'], knee); set(['rightAnkle'], ankle);
      set(['rightHeel'], heel); set(['rightFootIndex'], toe);
    }
  }
  for (const [landmark, at] of FACE.entries()) out[landmark] = add(chest, trunk(add([0, 0.2, 0], at)));
  return out;
}

/** The face against its middle: forward, up, right; metres; usual measures from memory, as in `fit/head.ts`. */
const eye = (side: number): Triple[] => [0.017, 0.031, 0.044].map((out, i) => [i === 2 ? 0.071 : 0.08, 0.045, side * out]);
const FACE: readonly Triple[] = [
  [0.115, 0.012, 0], ...eye(-1), ...eye(1), [-0.005, 0.03, -0.072], [-0.005, 0.03, 0.072], [0.092, -0.02, -0.024], [0.092, -0.02, 0.024],
];

/** Mid-hip height that puts the lower ankle 78 mm over the floor; for poses given by leg angles. */
export function stand(pose: SyntheticPose): SyntheticPose {
  const at = landmarksOf({ ...pose, root: [pose.root[0], 0, pose.root[2]] });
  const low = Math.min(at[LANDMARK.leftAnkle]![1], at[LANDMARK.rightAnkle]![1]);
  return { ...pose, root: [pose.root[0], 0.078 - low, pose.root[2]] };
}

export interface SyntheticCamera {
  distanceM: number;
  heightM: number;
  /** 0 in front of the performer at yaw 0, positive toward the performer's right. */
  azimuthDeg: number;
  pitchDeg: number;
  /** Turn about the view, positive clockwise seen from behind the camera; 0 where left out. */
  rollDeg?: number;
  /** Sideways shift of the camera, metres to the right of its picture. */
  shiftM: number;
  widthPx: number;
  heightPx: number;
  verticalFovDeg: number;
}
export const FRONT: SyntheticCamera = {
  distanceM: 4.3, heightM: 1.2, azimuthDeg: 0, pitchDeg: 0, shiftM: 0, widthPx: 640, heightPx: 720, verticalFovDeg: 33,
};

/** How the detector errs; all 0 gives the truth (with gain 1). */
export interface Faults {
  jitterPx: number;
  biasPx: number;
  depthGain: number;
  depthNoiseM: number;
  /** Straight knees and hanging elbows are read with this much depth at the middle joint, metres (0.05 gives about 15 to 25°). */
  bentM: number;
  seed: number;
}
export const FAULTS: Faults = { jitterPx: 1.5, biasPx: 4, depthGain: 0.6, depthNoiseM: 0.03, bentM: 0.05, seed: 1 };
export const NO_FAULTS: Faults = { jitterPx: 0, biasPx: 0, depthGain: 1, depthNoiseM: 0, bentM: 0, seed: 1 };

/** A seeded source of even numbers in 0..1 (mulberry32, public domain). */
export function evenNumbers(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let x = Math.imul(a ^ (a >>> 15), 1 | a);
    x = (x + Math.imul(x ^ (x >>> 7), 61 | x)) ^ x;
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296;
  };
}

export interface SyntheticTake {
  readonly track: Track;
  /** True landmarks in the camera's frame, [T·33·3] metres. */
  readonly truthM: Float64Array;
}

/** Truth of a point in the camera's frame: x right, y down, z away. */
function inCamera(v: Triple, camera: SyntheticCamera): Triple {
  // At azimuth 0 the camera looks along -X of the stage: right of the picture is the performer's left (-Z).
  const turned = aboutY(v, rad(camera.azimuthDeg));
  const level: Triple = [-turned[2] - camera.shiftM, -(turned[1] - camera.heightM), camera.distanceM - turned[0]];
  const p = rad(camera.pitchDeg);
  const pitched: Triple = [level[0], level[1] * Math.cos(p) - level[2] * Math.sin(p), level[1] * Math.sin(p) + level[2] * Math.cos(p)];
  // A camera turned clockwise sees the world turned the other way.
  return aboutZ(pitched, -rad(camera.rollDeg ?? 0));
}

/** Films a moving pose. */
export function film(
  timesS: readonly number[], poseAt: (timeS: number) => SyntheticPose, camera: SyntheticCamera = FRONT, faults: Faults = FAULTS,
): SyntheticTake {
  const track = emptyTrack('full', camera.widthPx, camera.heightPx, Float64Array.from(timesS));
  const truthM = new Float64Array(timesS.length * LANDMARK_COUNT * 3);
  const even = evenNumbers(faults.seed);
  const gauss = (): number => Math.sqrt(-2 * Math.log(even() + 1e-12)) * Math.cos(2 * Math.PI * even());
  const focal = camera.heightPx / 2 / Math.tan(rad(camera.verticalFovDeg) / 2);
  // Slow errors: a constant and a slow sine (periods of 3 to 6 s) for each landmark and axis, together 1 in root mean square.
  const slow = Array.from({ length: LANDMARK_COUNT * 3 }, () => [gauss(), even(), even()] as const);
  const wander = (channel: number, t: number): number => {
    const [constant, a, b] = slow[channel]!;
    return 0.8 * constant + 0.6 * Math.SQRT2 * Math.sin(2 * Math.PI * (t / (3 + a * 3) + b));
  };
  for (const [t, time] of timesS.entries()) {
    const at = landmarksOf(poseAt(time)).map((v) => inCamera(v, camera));
    const hips = add(at[LANDMARK.leftHip]!, at[LANDMARK.rightHip]!).map((v) => v / 2) as Triple;
    track.found[t] = 1;
    for (let l = 0; l < LANDMARK_COUNT; l++) {
      const i = t * LANDMARK_COUNT + l;
      const p = at[l]!;
      truthM.set(p, i * 3);
      track.visibility[i] = 0.98;
      const px = [0, 1].map((k) => (focal * p[k]!) / p[2]! + faults.jitterPx * gauss() + faults.biasPx * wander(l * 3 + k, time));
      track.image[i * 3] = px[0]! / camera.widthPx + 0.5;
      track.image[i * 3 + 1] = px[1]! / camera.heightPx + 0.5;
      track.image[i * 3 + 2] = 0;
      const bent = l === LANDMARK.leftKnee || l === LANDMARK.rightKnee ? -faults.bentM
        : l === LANDMARK.leftElbow || l === LANDMARK.rightElbow ? faults.bentM : 0;
      for (let k = 0; k < 2; k++) track.world[i * 3 + k] = (px[k]! * hips[2]) / focal - hips[k]!;
      track.world[i * 3 + 2] = faults.depthGain * (p[2]! - hips[2]) + bent + faults.depthNoiseM * wander(l * 3 + 2, time);
    }
  }
  return { track, truthM };
}

/** Evenly spaced times. */
export const times = (seconds: number, rate: number): number[] => Array.from({ length: Math.round(seconds * rate) }, (_, i) => i / rate);

/** Flexion in degrees at `middle` from points [T·33·3]. */
export function flexionDeg(points: ArrayLike<number>, t: number, start: number, middle: number, end: number): number {
  const v = (a: number, b: number): Triple => [0, 1, 2].map((k) => points[(t * LANDMARK_COUNT + b) * 3 + k]! - points[(t * LANDMARK_COUNT + a) * 3 + k]!) as Triple;
  const a = v(start, middle);
  const b = v(middle, end);
  const cross = Math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]);
  return (Math.atan2(cross, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) * 180) / Math.PI;
}

export const HINGES = {
  leftElbow: [LANDMARK.leftShoulder, LANDMARK.leftElbow, LANDMARK.leftWrist],
  rightElbow: [LANDMARK.rightShoulder, LANDMARK.rightElbow, LANDMARK.rightWrist],
  leftKnee: [LANDMARK.leftHip, LANDMARK.leftKnee, LANDMARK.leftAnkle],
  rightKnee: [LANDMARK.rightHip, LANDMARK.rightKnee, LANDMARK.rightAnkle],
} as const;
export type Hinge = keyof typeof HINGES;

/** Root mean square difference of a hinge's flexion between two sets of points, degrees. */
export function hingeRmseDeg(hinge: Hinge, points: ArrayLike<number>, truth: ArrayLike<number>, frames: number): number {
  const [a, b, c] = HINGES[hinge];
  let sum = 0;
  for (let t = 0; t < frames; t++) sum += (flexionDeg(points, t, a, b, c) - flexionDeg(truth, t, a, b, c)) ** 2;
  return Math.sqrt(sum / frames);
}

