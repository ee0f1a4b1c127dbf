// The right arm goes up sideways, stops dead half way, goes on, rests, and comes down: a test of pauses.
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import { alive } from '../motion/standing.ts';
import type { Action } from './action.ts';

const TRACKS: Tracks = {
  'rightArm.elevation': [[0.6, 9], [1.4, 82], [2.2, 82], [3.0, 158], [3.7, 158], [4.9, 9]],
  'rightArm.plane': [[0.6, 12], [1.4, 6], [3.7, 6], [4.9, 12]],
  'rightArm.elbow': [[0.6, 10], [1.4, 7], [3.0, 7], [3.7, 7], [4.9, 10]],
  'rightArm.wristTwist': [[0.6, 18], [1.4, 4], [3.7, 4], [4.9, 18]],
  trunkLean: [[0.6, 0], [1.4, -1], [2.2, -1], [3.0, -3], [3.7, -3], [4.9, 0]],
};

export const armRaise: Action = {
  name: 'arm-raise',
  says: 'Raises the right arm sideways to 82 degrees, stops for 0.8 s, goes on to 158, rests, comes down.',
  durationS: 5.5,
  channels: (body, timeS) => alive(channelsAt(body, TRACKS, timeS), 'arm-raise', timeS, 0.7),
};
