/** One synthetic take for the tests of corrections: she waves an arm out to the side, then stands; 4 s. */
import { NO_CORRECTIONS, type Corrections } from '../../../src/motion/corrections/corrections.ts';
import { unreadFitter } from '../fit/unread.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { FIGURE_LANDMARKS } from '../../../src/motion/fit/layout.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../../src/pose/landmarks.ts';
import { film, FRONT, stand, STANDING, times, type SyntheticPose } from '../fit/syntheticTake.ts';

export const RATE = 30;
const wave = (timeS: number): SyntheticPose => {
  const up = 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, timeS - 0.5)));
  return stand({ ...STANDING, arms: [{ forward: 10, sideways: 8 + 60 * up, elbow: 10 + 50 * up }, STANDING.arms[1]] });
};
export const take = film(times(4, RATE), wave, FRONT);
const fitter = unreadFitter();

export const fitWith = (change: Partial<Corrections>): FittedBody => fitter.fit(take.track, 1, { ...NO_CORRECTIONS, slate: { kind: 'none' }, ...change });
export const base = fitWith({});

/** Where a body's joint is seen in the picture, pixels. */
export function seenPx(body: FittedBody, frame: number, landmark: LandmarkName): [number, number] {
  const i = (frame * FIGURE_LANDMARKS.length + FIGURE_LANDMARKS.indexOf(LANDMARK[landmark])) * 2;
  return [body.figureImage[i]! * take.track.widthPx, body.figureImage[i + 1]! * take.track.heightPx];
}

/** Place of a landmark about the mid-hip, metres, stage axes. */
export function pointM(body: FittedBody, frame: number, landmark: LandmarkName): [number, number, number] {
  const i = (frame * LANDMARK_COUNT + LANDMARK[landmark]) * 3;
  return [body.pointsM[i]!, body.pointsM[i + 1]!, body.pointsM[i + 2]!];
}
