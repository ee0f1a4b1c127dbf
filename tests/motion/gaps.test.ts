import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING, type Motion } from '../../src/motion/motion.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { angleBetween } from '../../src/numeric/quaternion.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import type { Track } from '../../src/pose/track.ts';
import { evenTimes, figure, jointAt, loseFrame, trackOf, turnZ, type FigurePose } from './figure.ts';

const PLAIN = { captureFactor: 1, mirror: false, cutoffHz: 0 };

/** An arm that rises and bends at an even pace, so that a bridge can be held against the truth. */
const poses = (count: number): FigurePose[] =>
  Array.from({ length: count }, (_, t) => ({ rightShoulder: turnZ(0.02 * t), rightElbow: 0.7 + 0.01 * t, leftElbow: 1, leftKnee: 1, rightKnee: 1 }));

function hide(track: Track, t: number, landmark: LandmarkName): void {
  track.visibility[t * LANDMARK_COUNT + LANDMARK[landmark]] = 0.2;
}

const stateOf = (motion: Motion, t: number, joint: JointName): number => motion.state[t * JOINT_COUNT + JOINT[joint]]!;
const confidenceOf = (motion: Motion, t: number, joint: JointName): number => motion.confidence[t * JOINT_COUNT + JOINT[joint]]!;

describe('frames with nobody', () => {
  it('are bridged when the good frames around lie up to 0.25 s apart', () => {
    const all = poses(40);
    const track = trackOf(all, evenTimes(40, 24));
    for (let t = 10; t < 15; t++) loseFrame(track, t); // from frame 9 to frame 15: six intervals, 0.25 s
    const motion = trackToMotion(track, PLAIN);
    for (let t = 10; t < 15; t++) {
      expect(stateOf(motion, t, 'rightElbow')).toBe(STATE_BRIDGED);
      expect(confidenceOf(motion, t, 'rightElbow')).toBe(0);
      // an arc bridged by a cubic: a chord of 0.12 rad leaves it by 1e-4 of its length
      expect(angleBetween(jointAt(motion.rotations, t, 'rightShoulder'), figure(all[t]!).rotations.rightShoulder)).toBeLessThan(5e-3);
    }
    expect(stateOf(motion, 9, 'rightElbow')).toBe(STATE_MEASURED);
    expect(confidenceOf(motion, 9, 'rightElbow')).toBeCloseTo(0.95, 6);
  });

  it('stay missing when it took longer, and at both ends', () => {
    const track = trackOf(poses(40), evenTimes(40, 24));
    for (const t of [0, 1, 39]) loseFrame(track, t);
    for (let t = 10; t < 16; t++) loseFrame(track, t); // one interval more
    const motion = trackToMotion(track, { ...PLAIN, cutoffHz: 6 });
    for (let t = 0; t < 40; t++) {
      const missing = t < 2 || t > 38 || (t >= 10 && t < 16);
      expect(stateOf(motion, t, 'head') === STATE_MISSING, `frame ${t}`).toBe(missing);
      expect(Number.isNaN(jointAt(motion.rotations, t, 'head')[0])).toBe(missing);
      expect(Number.isNaN(motion.rootM[t * 3 + 1]!)).toBe(missing);
      if (missing) expect(confidenceOf(motion, t, 'head')).toBe(0);
    }
  });

  it('are measured in the performer’s own time', () => {
    const track = trackOf(poses(40), evenTimes(40, 24));
    for (let t = 10; t < 20; t++) loseFrame(track, t); // 0.458 s of the container
    expect(stateOf(trackToMotion(track, PLAIN), 12, 'head')).toBe(STATE_MISSING);
    expect(stateOf(trackToMotion(track, { ...PLAIN, captureFactor: 2 }), 12, 'head')).toBe(STATE_BRIDGED);
  });

  it('break the smoothing: what lies behind a gap does not reach what lies before it', () => {
    const make = (behind: number): Motion => {
      const track = trackOf(Array.from({ length: 60 }, (_, t) => ({ leftElbow: t < 30 ? 0.8 : behind, rightElbow: 1 })), evenTimes(60, 24));
      for (let t = 25; t < 35; t++) loseFrame(track, t);
      return trackToMotion(track, { ...PLAIN, cutoffHz: 3 });
    };
    expect([...make(0.8).rotations.slice(0, 25 * JOINT_COUNT * 4)]).toEqual([...make(2).rotations.slice(0, 25 * JOINT_COUNT * 4)]);
  });
});

describe('hidden landmarks', () => {
  it('are carried across when hidden for a short time, and marked', () => {
    const all = poses(40);
    const track = trackOf(all, evenTimes(40, 24));
    for (let t = 10; t < 13; t++) {
      hide(track, t, 'rightWrist');
      track.world.set([5, 5, 5], (t * LANDMARK_COUNT + LANDMARK.rightWrist) * 3); // nonsense, must not be used
    }
    const motion = trackToMotion(track, PLAIN);
    for (let t = 10; t < 13; t++) {
      expect(angleBetween(jointAt(motion.rotations, t, 'rightElbow'), figure(all[t]!).rotations.rightElbow)).toBeLessThan(5e-3);
      expect(stateOf(motion, t, 'rightElbow')).toBe(STATE_BRIDGED);
      expect(confidenceOf(motion, t, 'rightElbow')).toBeCloseTo(0.2, 6);
      expect(stateOf(motion, t, 'leftElbow')).toBe(STATE_MEASURED);
      expect(stateOf(motion, t, 'rightKnee')).toBe(STATE_MEASURED);
    }
    expect(stateOf(motion, 13, 'rightElbow')).toBe(STATE_MEASURED);
  });

  it('keep the model’s guess when hidden for long, marked all the same', () => {
    const all = poses(40);
    const track = trackOf(all, evenTimes(40, 24));
    for (let t = 10; t < 30; t++) hide(track, t, 'rightWrist');
    const motion = trackToMotion(track, PLAIN);
    const plain = trackToMotion(trackOf(all, evenTimes(40, 24)), PLAIN);
    for (let t = 0; t < 40; t++) {
      expect(jointAt(motion.rotations, t, 'rightElbow')).toEqual(jointAt(plain.rotations, t, 'rightElbow'));
      expect(stateOf(motion, t, 'rightElbow')).toBe(t >= 10 && t < 30 ? STATE_BRIDGED : STATE_MEASURED);
    }
  });
});
