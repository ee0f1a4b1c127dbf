// Works at a table that hides part of the body from the camera: kneads, turns, reaches out.
import { pacedTracks } from '../motion/scale.ts';
import type { Side } from '../motion/skeleton.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

function tracks(reach: Side): Tracks {
  const other = reach === 'left' ? 'right' : 'left';
  const turn = reach === 'left' ? 14 : -14;
  return {
    'root.forward': [[0, 0.02], [0.5, 0.05], [1.0, 0.02], [1.5, 0.05]],
    'root.up': [[0, -0.004], [0.5, -0.012], [1.0, -0.004], [1.5, -0.012]],
    pelvisPitch: [[0, 8], [0.5, 16], [1.0, 9], [1.5, 16], [2.3, 12]],
    trunkPitch: [[0, 8], [0.5, 17], [1.0, 9], [1.5, 17], [2.3, 10]],
    trunkYaw: [[1.6, 0], [2.4, turn]],
    headPitch: [[0, 14], [1.6, 14], [2.4, 0]],
    headYaw: [[1.6, 0], [2.3, turn * 1.6]],
    [`${reach}Arm.elevation`]: [[0, 34], [0.5, 52], [1.0, 36], [1.5, 52], [2.4, 84]],
    [`${reach}Arm.plane`]: [[0, 76], [1.5, 80], [2.4, 34]],
    [`${reach}Arm.elbow`]: [[0, 66], [0.5, 26], [1.0, 62], [1.5, 26], [2.4, 12]],
    [`${other}Arm.elevation`]: [[0, 36], [0.55, 50], [1.05, 38], [1.55, 50], [2.4, 40]],
    [`${other}Arm.plane`]: [[0, 74], [1.5, 78]],
    [`${other}Arm.elbow`]: [[0, 62], [0.55, 30], [1.05, 60], [1.55, 30], [2.4, 48]],
    'leftArm.twist': [[0, 22]], 'rightArm.twist': [[0, 22]],
    'leftFoot.forward': [[0, 0.08]], 'rightFoot.forward': [[0, -0.08]],
  };
}

/** @param reach the arm that reaches out at the end @param pace above 1 is slower; at 1 it takes 2.9 s */
export function tableWork(name: string, reach: Side, pace: number): Action {
  return {
    name,
    says: `Kneads at a table with both arms, then reaches out with the ${reach} one.`,
    durationS: 2.9 * pace,
    channels: (body, timeS) => {
      const c = channelsAt(body, pacedTracks(tracks(reach), pace), timeS);
      return alive({ ...c, root: [c.root[0], c.root[1] - 0.012, c.root[2]] }, name, timeS, 0.6);
    },
  };
}
