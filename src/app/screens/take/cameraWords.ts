/** How the camera stood, in words. */
import { figure } from '../../../charts/figures.ts';

/** Smallest angle that is written, degrees; below it the camera is called level. */
const LEVEL_DEG = 0.05;

/**
 * @param camera pitch (positive: the lens looks below the horizon) and roll, radians, as the fit estimates them
 * @returns e.g. `looks down by 3.1°, turned 0.4°, estimated`
 */
export function cameraWords(camera: { readonly pitchRad: number; readonly rollRad: number }): string {
  const pitchDeg = (camera.pitchRad * 180) / Math.PI;
  const rollDeg = Math.abs((camera.rollRad * 180) / Math.PI);
  const looks = Math.abs(pitchDeg) < LEVEL_DEG ? 'looks straight ahead' : `looks ${pitchDeg > 0 ? 'down' : 'up'} by ${figure(Math.abs(pitchDeg), 1)}°`;
  const turned = rollDeg < LEVEL_DEG ? 'not turned' : `turned ${figure(rollDeg, 1)}°`;
  return `${looks}, ${turned}, estimated`;
}
