// Forearm curls with the upper arm hanging.
import { pacedTracks } from '../motion/scale.ts';
import type { Side } from '../motion/skeleton.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

/** @param arms which curl @param pace above 1 is slower; at 1 it takes 2.6 s @param fullDeg flexion at the top */
export function curl(name: string, arms: readonly Side[], pace: number, fullDeg: number): Action {
  const tracks: Record<string, readonly (readonly [number, number])[]> = {};
  arms.forEach((side, i) => {
    const late = 0.1 * i;
    tracks[`${side}Arm.elbow`] = [[0.3 + late, 10], [0.95 + late, fullDeg], [1.2 + late, fullDeg], [1.75 + late, 34], [2.3 + late, 90]];
    tracks[`${side}Arm.elevation`] = [[0.3, 9], [0.9, 13], [2.3, 10]];
    tracks[`${side}Arm.plane`] = [[0, 30]];
    tracks[`${side}Arm.twist`] = [[0, 4]];
    tracks[`${side}Arm.wristTwist`] = [[0.2, 18], [0.9, 80], [2.4, 80]];
  });
  return {
    name,
    says: `Curls the ${arms.join(' and the ')} forearm to ${fullDeg}°, down to 34°, and up to a right angle, which it keeps.`,
    durationS: 2.6 * pace,
    channels: (body, timeS) => alive(channelsAt(body, pacedTracks(tracks as Tracks, pace), timeS), name, timeS, 0.8),
  };
}
