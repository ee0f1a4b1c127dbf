import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../../src/motion/joints.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from '../../src/motion/motion.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { angleBetween, twistAngle } from '../../src/numeric/quaternion.ts';
import { pchip } from '../../src/numeric/pchip.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import { evenTimes, jointAt, loseFrame, trackOf, turnX, turnZ, type FigurePose } from '../motion/figure.ts';

const PLAIN = { captureFactor: 1, mirror: false, cutoffHz: 0 };
const swing = (t: number): FigurePose => ({
  pelvis: turnX(0.2 * Math.sin(3 * t)), rightShoulder: turnZ(0.8 * Math.sin(2 * t)), rightElbow: 1 + 0.5 * Math.cos(4 * t),
  leftElbow: 1, leftKnee: 0.8 + 0.3 * Math.sin(3 * t), leftHip: turnZ(0.4), rightKnee: 1, rootM: [0, 0, 0.1 * t],
});

const times = evenTimes(30, 5);
const track = trackOf([...times].map(swing), times);
const motion = trackToMotion(track, PLAIN);

describe('sampling', () => {
  it('on the frames gives the frames, to the last digit', () => {
    const poses = sampleMotion(motion, times);
    expect(poses.rotations).toEqual(motion.rotations);
    expect(poses.rootM).toEqual(motion.rootM);
    expect(poses.state).toEqual(motion.state);
    expect(poses.confidence).toEqual(motion.confidence);
  });

  it('gives every hinge PCHIP of its flexion', () => {
    const at = Float64Array.from({ length: 50 }, (_, k) => 0.013 + k * 0.11);
    const flexion = times.map((_, t) => twistAngle(jointAt(motion.rotations, t, 'rightElbow'), 3));
    const expected = pchip(times, flexion, at);
    const poses = sampleMotion(motion, at);
    at.forEach((_, s) => expect(twistAngle(jointAt(poses.rotations, s, 'rightElbow'), 3)).toBeCloseTo(expected[s]!, 12));
  });

  it('has no kink at a frame, even at 5 frames a second, and no swing past it', () => {
    const joint: JointName = 'rightShoulder';
    const small = 1e-4;
    for (let t = 1; t < 29; t++) {
      const at = new Float64Array([times[t]! - small, times[t]!, times[t]! + small]);
      const { rotations } = sampleMotion(motion, at);
      const before = angleBetween(jointAt(rotations, 0, joint), jointAt(rotations, 1, joint)) / small;
      const after = angleBetween(jointAt(rotations, 1, joint), jointAt(rotations, 2, joint)) / small;
      // finite differences of a curve whose acceleration is some 10 rad/s²
      expect(Math.abs(before - after)).toBeLessThan(0.02);
    }
    const fine = sampleMotion(motion, Float64Array.from({ length: 581 }, (_, k) => k * 0.01));
    const largest = (r: Float64Array, n: number): number =>
      Math.max(...Array.from({ length: n }, (_, k) => Math.abs(twistAngle(jointAt(r, k, joint), 3))));
    expect(largest(fine.rotations, 581)).toBeLessThan(largest(motion.rotations, 30) + 1e-12);
  });

  it('takes the worse state and the smaller confidence of the two frames around', () => {
    const gappy = trackOf([...evenTimes(60, 30)].map(swing), evenTimes(60, 30));
    loseFrame(gappy, 10);
    for (let t = 30; t < 45; t++) loseFrame(gappy, t);
    const made = trackToMotion(gappy, PLAIN);
    const at = new Float64Array([9, 9.5, 10, 10.5, 11, 29, 29.5, 30, 44.5, 45].map((f) => f / 30));
    const poses = sampleMotion(made, at);
    const states = Array.from(at, (_, s) => poses.state[s * JOINT_COUNT + JOINT.head]);
    expect(states).toEqual([
      STATE_MEASURED, STATE_BRIDGED, STATE_BRIDGED, STATE_BRIDGED, STATE_MEASURED,
      STATE_MEASURED, STATE_MISSING, STATE_MISSING, STATE_MISSING, STATE_MEASURED,
    ]);
    states.forEach((state, s) => {
      expect(Number.isNaN(jointAt(poses.rotations, s, 'head')[0])).toBe(state === STATE_MISSING);
      expect(Number.isNaN(poses.rootM[s * 3]!)).toBe(state === STATE_MISSING);
      expect(poses.confidence[s * JOINT_COUNT + JOINT.head]).toBeCloseTo(state === STATE_MEASURED ? 0.95 : 0, 6);
    });
  });

  it('takes the larger errors of the two frames around, of directions and of turns about a bone', () => {
    const made = trackToMotion(trackOf([...evenTimes(20, 30)].map(swing), evenTimes(20, 30)), PLAIN);
    const poses = sampleMotion(made, Float64Array.of(5 / 30, 5.5 / 30));
    for (const errors of ['errorDeg', 'turnErrorDeg'] as const) {
      for (let j = 0; j < JOINT_COUNT; j++) {
        const [a, b] = [made[errors][5 * JOINT_COUNT + j]!, made[errors][6 * JOINT_COUNT + j]!];
        expect([poses[errors][j], poses[errors][JOINT_COUNT + j]]).toEqual([a, Math.max(a, b)]);
      }
    }
    expect(poses.turnErrorDeg[JOINT.leftHip]).not.toBeNaN();
  });

  it('beside a gap does not look across it', () => {
    const gappy = trackOf([...evenTimes(60, 30)].map(swing), evenTimes(60, 30));
    for (let t = 30; t < 45; t++) loseFrame(gappy, t);
    const at = new Float64Array([28.5 / 30, 29 / 30, 45.3 / 30]);
    expect(sampleMotion(trackToMotion(gappy, PLAIN), at).rotations.every(Number.isFinite)).toBe(true);
  });

  it('holds the ends outside the take, and a single frame everywhere', () => {
    const poses = sampleMotion(motion, new Float64Array([-3, 0, 5.8, 77]));
    for (const joint of JOINT_NAMES) {
      expect(jointAt(poses.rotations, 0, joint)).toEqual(jointAt(motion.rotations, 0, joint));
      expect(jointAt(poses.rotations, 3, joint)).toEqual(jointAt(motion.rotations, 29, joint));
    }
    const single = trackToMotion(trackOf([swing(0.4)], [2]), PLAIN);
    expect(jointAt(sampleMotion(single, new Float64Array([0, 2, 3])).rotations, 2, 'pelvis')).toEqual(jointAt(single.rotations, 0, 'pelvis'));
  });
});
