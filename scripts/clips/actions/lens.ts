// An arm is stretched straight at the camera, draws back, is stretched again, and hangs.
import { signOf, type Side } from '../motion/skeleton.ts';
import { pacedTracks } from '../motion/scale.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

/** @param side the arm @param azimuthDeg where the camera stands @param pace above 1 is slower; at 1 it takes 3.2 s */
export function armAtLens(name: string, side: Side, azimuthDeg: number, pace: number): Action {
  // Plane 90 is straight forward; towards the arm's own side it is less.
  const plane = 90 - signOf(side) * azimuthDeg;
  const other = side === 'left' ? 'right' : 'left';
  const tracks: Tracks = {
    [`${side}Arm.elevation`]: [[0.3, 9], [0.95, 89], [1.25, 89], [1.65, 62], [2.05, 89], [2.3, 89], [3.0, 9]],
    [`${side}Arm.plane`]: [[0.3, plane * 0.6], [0.95, plane], [2.3, plane], [3.0, plane * 0.6]],
    [`${side}Arm.elbow`]: [[0.3, 10], [0.95, 7], [1.25, 7], [1.65, 98], [2.05, 7], [2.3, 7], [3.0, 10]],
    [`${side}Arm.wristFlex`]: [[0.3, 4], [0.95, -35], [2.3, -35], [3.0, 4]],
    trunkYaw: [[0.3, 0], [0.95, signOf(side) * 6], [2.3, signOf(side) * 6], [3.0, 0]],
    [`${other}Arm.elevation`]: [[0.5, 9], [1.1, 26], [2.3, 26], [2.9, 9]],
    [`${other}Arm.elbow`]: [[0.5, 10], [1.1, 62], [2.3, 62], [2.9, 10]],
    [`${other}Arm.twist`]: [[0.5, 12], [1.1, 40], [2.3, 40], [2.9, 12]],
  };
  return {
    name,
    says: `Stretches the ${side} arm at the lens, draws it back, stretches it again, lets it hang; the other hand goes to the hip.`,
    durationS: 3.2 * pace,
    channels: (body, timeS) => alive(channelsAt(body, pacedTracks(tracks, pace), timeS), name, timeS, 0.8),
  };
}
