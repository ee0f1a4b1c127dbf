/** A frame in which a landmark is somewhere else altogether is flagged and hardly counts. */
import { describe, expect, it } from 'vitest';
import { fitBody } from '../../../src/motion/fit/fitBody.ts';
import { FLAG_JUMPED } from '../../../src/motion/fit/fittedBody.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../../src/pose/landmarks.ts';
import { film, flexionDeg, FRONT, HINGES, stand, STANDING, times, type SyntheticPose } from './syntheticTake.ts';

const raise = (t: number): SyntheticPose => stand({
  ...STANDING, arms: [{ forward: 0, sideways: 60 + 40 * Math.sin(2 * t), elbow: 20 }, STANDING.arms[1]],
});

describe('a landmark that jumps', () => {
  it('is flagged in its frame alone, and moves the elbow little', () => {
    const clean = fitBody(film(times(3, 30), raise).track);
    const take = film(times(3, 30), raise, FRONT);
    const at = (t: number): number => (t * LANDMARK_COUNT + LANDMARK.leftWrist) * 3;
    // 30 cm aside in the picture for one frame: the wrist is taken for something on the wall.
    take.track.image[at(45)] = take.track.image[at(45)]! + 85 / 640;
    const body = fitBody(take.track);
    const flagged = Array.from({ length: 90 }, (_, t) => t).filter((t) => (body.limbFlags[t * 4]! & FLAG_JUMPED) !== 0);
    expect(flagged).toEqual([45]);
    expect(body.jumpPx[45 * 4]).toBeGreaterThan(50);
    const apart = Array.from({ length: 90 }, (_, t) => Math.abs(flexionDeg(body.pointsM, t, ...HINGES.leftElbow) - flexionDeg(clean.pointsM, t, ...HINGES.leftElbow)));
    console.info(`a wrist 30 cm off for one frame moves the elbow by ${Math.max(...apart).toFixed(1)}°`);
    // Averaged in it would be 7°.
    expect(Math.max(...apart)).toBeLessThan(3);
  }, 30_000);
});
