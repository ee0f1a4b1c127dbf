/**
 * The fast way over typed arrays gives what the plain way gives: the same formulas, one small object for each vector, as
 * they were first written (tests/motion/slow). Where a joint is meant to be read in a new way, its row is taken out here.
 */
import { describe, expect, it } from 'vitest';
import { JOINT_COUNT, JOINT_NAMES, type JointName } from '../../src/motion/joints.ts';
import { writeJointRotations } from '../../src/motion/jointRotations.ts';
import { LANDMARK_COUNT, LANDMARK_NAMES } from '../../src/pose/landmarks.ts';
import { evenTimes, figure, gaussian, turnX, turnY, turnZ, type FigurePose } from './figure.ts';
import { slowJointRotations } from './slow/slowRotations.ts';

const READ_ANEW: readonly JointName[] = [];

/** Limbs go through straight, straight up and right over; everything turns. */
function pose(t: number): FigurePose {
  const s = (hz: number, phase: number): number => Math.sin(2 * Math.PI * hz * t + phase);
  return {
    pelvis: turnY(3 * s(0.2, 0)), lean: 0.5 * s(0.5, 1), shoulders: turnY(0.6 * s(0.6, 2)), head: turnX(0.4 * s(0.3, 3)),
    leftShoulder: turnX(1.6 + 1.6 * s(0.7, 0)), leftElbow: Math.max(0, 1.2 * s(0.8, 1)), leftWrist: turnY(s(0.4, 0)),
    rightShoulder: turnZ(3 * s(0.5, 2)), rightElbow: 1.2 + 1.1 * s(0.9, 0),
    leftHip: turnZ(0.8 + 0.8 * s(0.6, 0)), leftKnee: Math.max(0, 2 * s(0.6, 0)),
    rightHip: turnX(0.7 * s(0.6, 3)), rightKnee: Math.max(0, 0.3 * s(0.6, 3)), rightAnkle: turnZ(0.3 * s(1, 0)),
  };
}

function positions(noiseM: number): Float64Array {
  const random = gaussian(7);
  const out = new Float64Array(300 * LANDMARK_COUNT * 3);
  [...evenTimes(300, 30)].forEach((t, k) => {
    const { points } = figure(pose(t));
    LANDMARK_NAMES.forEach((name, l) => out.set(points[name].map((v) => v + noiseM * random()), (k * LANDMARK_COUNT + l) * 3));
  });
  return out;
}

describe('typed arrays against small objects', () => {
  const cases: readonly (readonly [string, Float64Array])[] = [
    ['clean', positions(0)], ['trembling', positions(0.01)], ['mostly noise', positions(0.3)], ['all in one place', new Float64Array(300 * LANDMARK_COUNT * 3)],
  ];
  it.each(cases)('%s', (_, points) => {
    const times = evenTimes(300, 30);
    const fast = new Float64Array(300 * JOINT_COUNT * 4);
    const slow = new Float64Array(300 * JOINT_COUNT * 4);
    for (const stretch of [{ from: 0, to: 99 }, { from: 100, to: 299 }]) {
      expect(writeJointRotations(points, times, stretch, fast)).toBe(slowJointRotations(points, times, stretch, slow));
    }
    JOINT_NAMES.forEach((name, j) => {
      if (READ_ANEW.includes(name)) return;
      for (let t = 0; t < 300; t++) {
        for (let c = 0; c < 4; c++) {
          const at = (t * JOINT_COUNT + j) * 4 + c;
          // a few rounding errors, carried over 300 frames
          expect(Math.abs(fast[at]! - slow[at]!), `${name} in frame ${t}`).toBeLessThan(1e-12);
        }
      }
    });
  });
});
