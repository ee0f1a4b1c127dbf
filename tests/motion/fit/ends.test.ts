/** Hands and feet of a fitted body: by the picture and by the floor, not by the model's own metres. */
import { describe, expect, it } from 'vitest';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../../src/pose/landmarks.ts';
import type { Track } from '../../../src/pose/track.ts';
import { angleBetweenVectors, midpoint, readVec3, subtract, type Vec3 } from '../../../src/numeric/vector3.ts';
import { evenTimes, figure, trackOf, turnX, turnY, type FigurePose } from '../figure.ts';

const RAD = Math.PI / 180;
const times = evenTimes(30, 30);
/** Arms out to the sides, the left hand bent toward the little finger's side of the view by 30°; feet toes outward. */
const pose: FigurePose = {
  leftShoulder: turnX(60 * RAD), rightShoulder: turnX(-60 * RAD), leftWrist: turnX(30 * RAD), leftElbow: 0.1, rightElbow: 0.1,
  leftAnkle: turnY(35 * RAD), rightAnkle: turnY(-35 * RAD), leftKnee: 0.05, rightKnee: 0.05,
};

function changed(change: (world: Float32Array, at: (name: LandmarkName) => number) => void): Track {
  const track = trackOf([...times].map(() => pose), times);
  for (let t = 0; t < times.length; t++) change(track.world, (name) => (t * LANDMARK_COUNT + LANDMARK[name]) * 3);
  return track;
}

function point(pointsM: Float64Array, name: LandmarkName): Vec3 {
  return readVec3(pointsM, 15 * LANDMARK_COUNT + LANDMARK[name]);
}

describe('hands', () => {
  it('point where the picture shows them, however the model’s metres of a hand are off', () => {
    // 8 cm of false depth on a hand of 8.5 cm: it would bend by over 50° in the model's own metres
    const { pointsM } = fitTake(changed((world, at) => {
      for (const name of ['leftIndex', 'leftPinky', 'leftThumb'] as const) {
        world[at(name) + 2]! -= 0.08;
      }
    }), 1);
    const truth = figure(pose).points;
    const bend = (of: (name: LandmarkName) => Vec3): number => angleBetweenVectors(
      subtract(of('leftWrist'), of('leftElbow')), subtract(midpoint(of('leftIndex'), of('leftPinky')), of('leftWrist')),
    ) / RAD;
    expect(bend((name) => truth[name])).toBeCloseTo(30, 1);
    // the picture's rays are not parallel to the fit, and the forearm's own depth is fitted
    expect(Math.abs(bend((name) => point(pointsM, name)) - 30)).toBeLessThan(8);
  });
});

describe('feet', () => {
  it('stand level, whatever slope the model gives to heel and toes', () => {
    const slope = (pointsM: Float64Array, side: 'left' | 'right'): number => {
      const sole = subtract(point(pointsM, `${side}FootIndex`), point(pointsM, `${side}Heel`));
      return Math.atan2(sole[1], Math.hypot(sole[0], sole[2])) / RAD;
    };
    const { pointsM, contacts } = fitTake(changed((world, at) => {
      for (const side of ['left', 'right'] as const) world[at(`${side}Heel`) + 1]! -= 0.06;
    }), 1);
    expect(contacts.every((stands) => stands === 1)).toBe(true);
    // the same slope in every frame is all taken off
    expect(Math.abs(slope(pointsM, 'left'))).toBeLessThan(0.5);
    expect(Math.abs(slope(pointsM, 'right'))).toBeLessThan(0.5);
  });
});
