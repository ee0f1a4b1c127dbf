import { describe, expect, it } from 'vitest';
import { BONE_COUNT, POINT, POINT_COUNT } from '../../../src/motion/fit/layout.ts';
import { chooseSigns } from '../../../src/motion/fit/limbSigns.ts';
import type { Problem } from '../../../src/motion/fit/problem.ts';
import { emptyReadings } from '../../../src/motion/fit/reader/average.ts';
import { randomProblem } from './randomProblem.ts';

const FRAMES = 5;

/** Bend of the left elbow in each frame that the start chooses for an arm whose two bones look short, radians. */
function chosen(bendRad: number | null): number[] {
  const { problem, figure } = randomProblem(FRAMES, 3);
  const camera = problem.cameras[0]!;
  const read = emptyReadings(FRAMES);
  read.bendRad.fill(bendRad ?? 0);
  read.bendSigmaRad.fill(bendRad === null ? Number.POSITIVE_INFINITY : 0.2);
  const image = camera.image.slice();
  for (let t = 0; t < FRAMES; t++) {
    // 4 m away at 1100 px: 15 of 29 cm of the upper arm and 7 of 24 cm of the forearm, straight down
    figure.free.set([0, 0, 4, 0.09, 0, 0, 0, -0.5, 0, 0.17, 0, 0], t * 12);
    for (const [point, y] of [[POINT.leftShoulder, 0], [POINT.leftElbow, 40], [POINT.leftWrist, 60]] as const) image.set([0, y], (t * POINT_COUNT + point) * 2);
  }
  // The model's own depth says nothing.
  const blind: Problem = { ...problem, cameras: [{ ...camera, image, read, depthSigmaM: camera.depthSigmaM.map(() => 1e3), depthWeight: camera.depthWeight.map(() => 1) }] };
  chooseSigns(blind, figure);
  return Array.from({ length: FRAMES }, (_, t) => {
    const at = t * BONE_COUNT * 3;
    return Math.acos([0, 1, 2].reduce((sum, k) => sum + figure.directions[at + k]! * figure.directions[at + 3 + k]!, 0));
  });
}

describe('toward the lens or away', () => {
  it('is told by the read bend where nothing else tells: a bent arm goes one way and comes back the other', () => {
    for (const bend of chosen(2.25)) expect(bend).toBeGreaterThan(2);
    for (const bend of chosen(0.23)) expect(bend).toBeLessThan(0.4);
  });

  it('without a reader’s word is straight, as limbs mostly are', () => {
    for (const bend of chosen(null)) expect(bend).toBeLessThan(0.4);
  });
});
