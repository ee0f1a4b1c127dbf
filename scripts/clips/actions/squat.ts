// Two squats with the arms held forward for balance.
import type { Key } from '../motion/curve.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import { alive } from '../motion/standing.ts';
import type { Action } from './action.ts';

/** Keys that go from `up` to `down` and back twice; the arms may start a little earlier than the legs. */
const twice = (up: number, down: number, lead = 0): readonly Key[] => [
  [0.6 - lead, up], [1.65 - lead / 2, down], [1.95, down], [2.95, up],
  [3.2 - lead, up], [4.2 - lead / 2, down], [4.55, down], [5.5, up],
];

const TRACKS: Tracks = {
  'root.up': twice(0, -0.36),
  'root.forward': twice(0, -0.15),
  pelvisPitch: twice(2, 24),
  trunkPitch: twice(-1, 9),
  headPitch: twice(0, -20),
  'leftArm.elevation': twice(9, 119, 0.1),
  'rightArm.elevation': twice(9, 117, 0.1),
  'leftArm.plane': twice(12, 84, 0.2),
  'rightArm.plane': twice(12, 82, 0.2),
  'leftArm.elbow': twice(10, 9),
  'rightArm.elbow': twice(10, 11),
  'leftFoot.outward': [[0, 0.04]],
  'rightFoot.outward': [[0, 0.04]],
  'leftFoot.yaw': [[0, 16]],
  'rightFoot.yaw': [[0, 15]],
  'leftFoot.kneeOut': twice(0, 5),
  'rightFoot.kneeOut': twice(0, 5),
};

export const squat: Action = {
  name: 'squat',
  says: 'Two squats on flat feet, the arms swung forward for balance.',
  durationS: 6,
  channels: (body, timeS) => {
    const c = channelsAt(body, TRACKS, timeS);
    // The wider stance makes the legs reach a little less high.
    return alive({ ...c, root: [c.root[0], c.root[1] - 0.006, c.root[2]] }, 'squat', timeS, 0.8);
  },
};
