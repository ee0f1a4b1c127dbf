// The demo: Marla, at night in her bakery, stands on her left leg and reaches for a jar on a high shelf.
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import { alive } from '../motion/standing.ts';
import { alongKeys } from '../motion/curve.ts';
import type { Action } from './action.ts';

// Weight goes over the left foot first, then the right knee rises while the left arm goes up.
const TRACKS: Tracks = {
  'root.right': [[0.45, 0], [1.25, -0.094], [3.7, -0.094], [4.6, 0]],
  'root.forward': [[0.6, 0], [1.6, 0.012], [3.5, 0.012], [4.6, 0]],
  'root.up': [[0.45, 0], [0.95, -0.009], [1.9, 0.006], [3.2, 0.006], [4.15, -0.01], [4.7, 0]],
  pelvisLean: [[0.8, 0], [2.1, -6], [3.2, -6], [4.4, 0]],
  pelvisYaw: [[0.8, 0], [2.1, -6], [3.2, -6], [4.4, 0]],
  pelvisPitch: [[0.8, 2], [2.1, 0], [3.2, 0], [4.4, 2]],
  trunkLean: [[0.8, 0], [2.1, 2], [3.2, 2], [4.4, 0]],
  trunkYaw: [[0.8, 0], [2.1, -4], [3.2, -4], [4.4, 0]],
  trunkPitch: [[0.8, -1], [2.1, -4], [3.2, -4], [4.4, -1]],
  headPitch: [[0.2, 0], [1.0, -17], [3.5, -17], [4.5, 0]],
  headYaw: [[0.2, 0], [1.0, 17], [3.5, 17], [4.5, 0]],
  headLean: [[0.6, 0], [2.0, 3], [3.2, 3], [4.4, 0]],

  'leftArm.elevation': [[0.75, 9], [2.1, 151], [3.15, 151], [4.55, 9]],
  'leftArm.plane': [[0.75, 12], [1.5, 60], [2.1, 38], [3.15, 38], [3.7, 60], [4.55, 12]],
  'leftArm.twist': [[0.75, 12], [2.1, 50], [3.15, 50], [4.55, 12]],
  'leftArm.wristTwist': [[0.75, 18], [2.1, 45], [3.15, 45], [4.55, 18]],
  'leftArm.elbow': [[0.7, 10], [1.35, 46], [2.15, 9], [3.1, 9], [3.85, 44], [4.6, 10]],
  'leftArm.wristFlex': [[0.8, 4], [2.1, -8], [3.15, -8], [4.5, 4]],
  'rightArm.elevation': [[0.9, 9], [2.0, 33], [3.3, 33], [4.5, 9]],
  'rightArm.plane': [[0.9, 12], [2.0, 8], [3.3, 8], [4.5, 12]],
  'rightArm.elbow': [[0.9, 10], [2.0, 27], [3.3, 27], [4.5, 10]],

  'rightFoot.up': [[1.0, 0], [2.1, 0.36], [3.1, 0.36], [4.2, 0]],
  'rightFoot.forward': [[1.0, 0], [2.1, 0.06], [3.1, 0.06], [4.2, 0]],
  'rightFoot.outward': [[1.0, 0], [2.1, -0.03], [3.1, -0.03], [4.2, 0]],
  'rightFoot.pitch': [[1.0, 0], [1.5, -22], [2.2, -24], [3.1, -24], [3.75, -16], [4.2, 0]],
  'rightFoot.kneeOut': [[0.9, 0], [2.1, 6], [3.1, 6], [4.25, 0]],
};
// More sway on one leg than on two.
const LIFE: readonly (readonly [number, number])[] = [[0.6, 0.8], [2.0, 1.5], [3.2, 1.5], [4.6, 0.8]];

export const oneLegReach: Action = {
  name: 'one-leg-reach',
  says: 'Stands on the left leg, the right knee lifted, and reaches high with the left arm; holds; comes back.',
  durationS: 5.2,
  channels: (body, timeS) => alive(channelsAt(body, TRACKS, timeS), 'one-leg-reach', timeS, alongKeys(LIFE, timeS)),
};
