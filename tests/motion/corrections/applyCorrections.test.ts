import { describe, expect, it } from 'vitest';
import { ANGLE_MEASURES, CORRECTABLE_JOINTS, type CorrectableJoint } from '../../../src/motion/corrections/angleMeasures.ts';
import { NO_CORRECTIONS, type Corrections } from '../../../src/motion/corrections/corrections.ts';
import { headAngles, trunkAxes } from '../../../src/motion/corrections/headTurn.ts';
import { fitUnread, unreadFitter } from '../fit/unread.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { FLEXION_SENSE, JOINT, JOINT_COUNT, JOINT_NAMES } from '../../../src/motion/joints.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { readQuat } from '../../../src/numeric/quaternion.ts';
import { angleBetweenVectors, subtract, type Vec3 } from '../../../src/numeric/vector3.ts';
import { LANDMARK, LANDMARK_BONES, LANDMARK_COUNT, type LandmarkName } from '../../../src/pose/landmarks.ts';
import { flexionDeg, HINGES } from '../fit/syntheticTake.ts';
import { base, fitWith, pointM, RATE, seenPx, take } from './take.ts';

const KEY = 60;
const keyS = KEY / RATE;
const { widthPx, heightPx } = take.track;
const elbow = (body: FittedBody, frame: number): number => flexionDeg(body.pointsM, frame, ...HINGES.leftElbow);
const placed = (landmark: LandmarkName, xPx: number, yPx: number, timeS = keyS): Partial<Corrections> =>
  ({ placed: [{ timeS, landmark, x: xPx / widthPx, y: yPx / heightPx }] });

/**
 * Largest turn of any bone or line of the trunk against the fit without corrections, over frames at least `awayS` from the key; degrees.
 * (How a straight limb is turned about its own length is read from the frames about and may follow from farther.)
 */
function farTurnDeg(body: FittedBody, awayS: number): number {
  let largest = 0;
  for (let t = 0; t < body.timesS.length; t++) {
    if (Math.abs(body.timesS[t]! - keyS) < awayS) continue;
    for (const [a, b] of LANDMARK_BONES) {
      const bone = (of: FittedBody): Vec3 => subtract(pointM(of, t, b), pointM(of, t, a));
      largest = Math.max(largest, (angleBetweenVectors(bone(body), bone(base)) * 180) / Math.PI);
    }
  }
  return largest;
}

describe('a joint placed in the picture', { timeout: 60_000 }, () => {
  const joints: readonly LandmarkName[] = ['leftElbow', 'leftWrist', 'rightKnee', 'leftAnkle', 'rightShoulder', 'leftHip'];
  it.each(joints)('%s is seen within 1.5 px of where it was put', (joint) => {
    const [x, y] = seenPx(base, KEY, joint);
    for (const [dx, dy] of [[0, 0], [6, -4], [-12, 10]] as const) {
      const [u, v] = seenPx(fitWith(placed(joint, x + dx, y + dy)), KEY, joint);
      expect(Math.hypot(u - x - dx, v - y - dy), `${dx}, ${dy}`).toBeLessThan(1.5);
    }
  });

  it('takes its neighbours along smoothly and leaves what is far alone', () => {
    const [x, y] = seenPx(base, KEY, 'leftElbow');
    const body = fitWith(placed('leftElbow', x, y + 12));
    const moved = Array.from({ length: take.track.timesS.length }, (_, t) => seenPx(body, t, 'leftElbow')[1] - seenPx(base, t, 'leftElbow')[1]);
    // The fit follows the landmark's jitter of 1.5 px; the correction must not add a spike to it.
    const bends = (of: FittedBody): number[] => Array.from({ length: 60 }, (_, k) =>
      Math.abs(seenPx(of, KEY - 29 + k, 'leftElbow')[1] - 2 * seenPx(of, KEY - 30 + k, 'leftElbow')[1] + seenPx(of, KEY - 31 + k, 'leftElbow')[1]));
    expect(Math.max(...bends(body))).toBeLessThan(1.2 * Math.max(...bends(base)));
    for (const t of [KEY - 2, KEY - 1, KEY + 1, KEY + 2]) expect(moved[t], `frame ${t}`).toBeGreaterThan(7.5);
    expect(moved[KEY + 5]).toBeGreaterThan(4);
    expect(moved[KEY + 20]).toBeLessThan(1.5);
    expect(farTurnDeg(body, 1.05)).toBeLessThan(0.5);
  });

  it('keeps lengths, and is gone without a trace when it is taken back', () => {
    const [x, y] = seenPx(base, KEY, 'leftWrist');
    const body = fitWith(placed('leftWrist', x + 20, y));
    expect(body.segmentLengthsM).toEqual(base.segmentLengthsM);
    expect(fitWith({}).pointsM).toEqual(base.pointsM);
  });

  it('of head, hands and feet shifts that landmark alone', () => {
    const at = (body: FittedBody, frame: number, name: LandmarkName): [number, number] => {
      // From the carrier, whose place in the picture is known, through a lens that is held level.
      const carrier = name === 'leftIndex' ? 'leftWrist' : 'leftAnkle';
      const [cx, cy] = seenPx(body, frame, carrier);
      const [c, p] = [pointM(body, frame, carrier), pointM(body, frame, name)];
      const { focalPx } = body.camera;
      const depth = focalPx / body.pxPerM[frame]! - c[0];
      const by = focalPx / (depth - p[0] + c[0]);
      const put = (seen: number, middle: number, offset: number): number => middle + by * (((seen - middle) * depth) / focalPx + offset);
      return [put(cx, widthPx / 2, c[2] - p[2]), put(cy, heightPx / 2, c[1] - p[1])];
    };
    for (const name of ['leftIndex', 'leftFootIndex'] as const) {
      const [x, y] = at(base, KEY, name);
      const body = fitWith(placed(name, x + 15, y - 5));
      const [u, v] = at(body, KEY, name);
      // The fitted lens looks down by 2°, which this level one doesn't know: 4 px at the foot, of the 16 it was moved.
      expect(Math.hypot(u - x - 15, v - y + 5)).toBeLessThan(5);
      expect(Math.abs(elbow(body, KEY) - elbow(base, KEY))).toBeLessThan(0.2);
      expect(pointM(body, KEY + 31, name)).toEqual(pointM(base, KEY + 31, name));
    }
  });

  it('outside the take, or twice in a frame: the first is ignored, of the second the last counts', () => {
    expect(fitWith(placed('leftElbow', 10, 10, 99)).pointsM).toEqual(base.pointsM);
    const [x, y] = seenPx(base, KEY, 'leftElbow');
    const twice = fitWith({ placed: [...placed('leftElbow', x + 40, y).placed!, ...placed('leftElbow', x + 5, y).placed!] });
    expect(Math.abs(seenPx(twice, KEY, 'leftElbow')[0] - x - 5)).toBeLessThan(1.5);
  });
});

/** What the joint rotations, the program's own reading, say of a typed measure. */
function readDeg(body: FittedBody, joint: CorrectableJoint): number {
  const motion = trackToMotion(take.track, { captureFactor: 1, mirror: false, cutoffHz: 0 }, body);
  const q = readQuat(motion.rotations, KEY * JOINT_COUNT + JOINT[joint]);
  const deg = 180 / Math.PI;
  const { measure } = ANGLE_MEASURES[joint];
  if (measure === 'flexion') return 2 * Math.atan2(q[3] * (FLEXION_SENSE[joint as keyof typeof FLEXION_SENSE] ?? 1), q[0]) * deg;
  const down = [0, 1, 2].map((k) => -column(q, k));
  if (measure === 'elevation') return Math.acos(Math.min(1, Math.max(-1, -down[1]!))) * deg;
  if (measure === 'hipFlexion') return Math.atan2(down[0]!, -down[1]!) * deg;
  const p = (name: LandmarkName): [number, number, number] => pointM(body, KEY, name);
  const mid = (a: LandmarkName, b: LandmarkName): number[] => [0, 1, 2].map((k) => (p(a)[k]! + p(b)[k]!) / 2);
  const [shoulders, hips] = [mid('leftShoulder', 'rightShoulder'), mid('leftHip', 'rightHip')];
  const spine = [0, 1, 2].map((k) => shoulders[k]! - hips[k]!) as [number, number, number];
  // She faces the lens: forward is the stage's X.
  if (measure === 'lean') return Math.atan2(spine[0], spine[1]) * deg;
  const right = [0, 1, 2].map((k) => p('rightShoulder')[k]! - p('leftShoulder')[k]!) as [number, number, number];
  const head = headAngles(body.pointsM, KEY * LANDMARK_COUNT * 3, trunkAxes(spine, right)!)!;
  return (measure === 'turn' ? head.turnRad : head.nodRad) * deg;
}
/** Component k of the child's Y axis in its parent. */
function column(q: readonly [number, number, number, number], k: number): number {
  const [w, x, y, z] = q;
  return [2 * (x * y - w * z), 1 - 2 * (x * x + z * z), 2 * (y * z + w * x)][k]!;
}

describe('a typed angle', { timeout: 60_000 }, () => {
  it.each(CORRECTABLE_JOINTS)('%s reads within 2° of it', (joint) => {
    const now = readDeg(base, joint);
    for (const by of [8, 20]) {
      const body = fitWith({ angles: [{ timeS: keyS, joint, angleDeg: now + by }] });
      expect(Math.abs(readDeg(body, joint) - now - by), `+${by}`).toBeLessThan(2);
      expect(farTurnDeg(body, 1.05)).toBeLessThan(0.5);
    }
  });

  it('also after smoothing, for it is no spike', () => {
    const body = fitWith({ angles: [{ timeS: keyS, joint: 'leftElbow', angleDeg: elbow(base, KEY) + 25 }] });
    const motion = trackToMotion(take.track, { captureFactor: 1, mirror: false, cutoffHz: 6 }, body);
    const q = readQuat(motion.rotations, KEY * JOINT_COUNT + JOINT.leftElbow);
    expect(Math.abs(2 * Math.atan2(q[3], q[0]) * (180 / Math.PI) - elbow(base, KEY) - 25)).toBeLessThan(2);
    for (let t = KEY - 3; t <= KEY + 3; t++) expect(elbow(body, t) - elbow(base, t)).toBeGreaterThan(20);
  });

  it('at a straight elbow cannot bend it backward in the frames about', () => {
    const body = fitWith({ angles: [{ timeS: keyS, joint: 'rightElbow', angleDeg: 0 }] });
    expect(flexionDeg(body.pointsM, KEY, ...HINGES.rightElbow)).toBeLessThan(2);
    expect(body.pointsM.every(Number.isFinite)).toBe(true);
  });
});

describe('the order of things', { timeout: 60_000 }, () => {
  const corrections: Corrections = {
    ...NO_CORRECTIONS, slate: { kind: 'none' },
    angles: [{ timeS: 1, joint: 'leftElbow', angleDeg: 40 }, { timeS: 3, joint: 'rightKnee', angleDeg: 20 }],
    placed: [{ timeS: 2, landmark: 'leftWrist', x: 0.6, y: 0.4 }],
    contacts: [{ foot: 'left', fromS: 0, toS: 1, stands: false }],
  };

  it('does not matter, and a kept fit gives what a new one gives', () => {
    const fitter = unreadFitter();
    fitter.fit(take.track, 1, { ...NO_CORRECTIONS, slate: { kind: 'none' }, depthFlips: [{ limb: 'leftArm', bone: 'both', fromS: 1, toS: 2 }] });
    const kept = fitter.fit(take.track, 1, corrections);
    expect(kept.pointsM).toEqual(fitUnread(take.track, 1, corrections).pointsM);
    const turnedRound = { ...corrections, angles: [...corrections.angles].reverse() };
    expect(fitter.fit(take.track, 1, turnedRound).pointsM).toEqual(kept.pointsM);
  });

  it('slow motion: times are the container’s', () => {
    const slow = { ...take.track, timesS: take.track.timesS.map((s) => s * 8) };
    const body = fitUnread(slow, 8, { ...NO_CORRECTIONS, slate: { kind: 'none' }, angles: [{ timeS: keyS * 8, joint: 'leftElbow', angleDeg: 70 }] });
    expect(elbow(body, KEY)).toBeGreaterThan(69);
    expect(elbow(body, KEY)).toBeLessThan(71);
    expect(body.timesS).toEqual(slow.timesS);
  });

  it('leaves the rest of the body where it was', () => {
    const body = fitWith({ angles: [{ timeS: keyS, joint: 'leftElbow', angleDeg: elbow(base, KEY) + 20 }] });
    for (const [a, b] of [['leftShoulder', 'rightShoulder'], ['leftHip', 'rightHip'], ['rightShoulder', 'rightElbow'], ['leftHip', 'leftKnee']] as const) {
      const bone = (of: FittedBody): Vec3 => subtract(pointM(of, KEY, b), pointM(of, KEY, a));
      expect((angleBetweenVectors(bone(body), bone(base)) * 180) / Math.PI).toBeLessThan(1);
    }
  });

  it('has a rule for every joint that takes an angle', () => {
    for (const joint of CORRECTABLE_JOINTS) {
      expect(JOINT_NAMES).toContain(joint);
      expect(ANGLE_MEASURES[joint].minDeg).toBeLessThan(ANGLE_MEASURES[joint].maxDeg);
    }
    expect(LANDMARK.leftElbow).toBe(13);
  });
});
