/** How the camera stood, in words. */
import { figure } from '../../../charts/figures.ts';
import type { FittedBody } from '../../../motion/fit/fittedBody.ts';

/** Smallest angle that is written, degrees; below it the camera is called level. */
const LEVEL_DEG = 0.05;

/**
 * @param camera pitch (positive: the lens looks below the horizon) and roll, radians; which of them a person gave
 * @returns e.g. `looks down by 3.1°, turned 0.4°, estimated`
 */
export function cameraWords(camera: Pick<FittedBody['camera'], 'pitchRad' | 'rollRad' | 'given'>): string {
  const pitchDeg = (camera.pitchRad * 180) / Math.PI;
  const rollDeg = Math.abs((camera.rollRad * 180) / Math.PI);
  const looks = Math.abs(pitchDeg) < LEVEL_DEG ? 'looks straight ahead' : `looks ${pitchDeg > 0 ? 'down' : 'up'} by ${figure(Math.abs(pitchDeg), 1)}°`;
  const turned = rollDeg < LEVEL_DEG ? 'not turned' : `turned ${figure(rollDeg, 1)}°`;
  const { pitch, roll } = camera.given;
  if (pitch && roll) return `${looks}, ${turned}, given`;
  if (pitch) return `${looks}, given; ${turned}, estimated`;
  return roll ? `${looks}, estimated; ${turned}, given` : `${looks}, ${turned}, estimated`;
}
