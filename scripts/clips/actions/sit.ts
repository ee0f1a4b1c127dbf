// Sits down on a stool, does something with one hand, gets up again.
import type { Body } from '../motion/body.ts';
import { alongKeys, type Key } from '../motion/curve.ts';
import { paced, pacedTracks, settled, sizeOf } from '../motion/scale.ts';
import type { Side } from '../motion/skeleton.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

/** The hip joints of a seated body are a little above the knees. */
const hipAtSeatM = (body: Body): number => body.kneeHeight + 0.025;
/** From the hip joints down to the stool, with the flesh a little pressed. */
const SEAT_BELOW_HIP_M = 0.098;
const BACK_M = 0.4;

/** Height of the stool on which a body sits with level thighs, and how far behind the standing feet its middle is (m). */
export const stoolFor = (body: Body): { topM: number; backM: number } => ({
  topM: hipAtSeatM(body) - SEAT_BELOW_HIP_M * body.trunkGirth, backM: (BACK_M + 0.03) * sizeOf(body),
});

const SEATED: readonly Key[] = [[0.3, 0], [1.45, 1], [2.4, 1], [3.5, 0]];

function tracks(body: Body, hand: Side): Tracks {
  const down = hipAtSeatM(body) - body.hipHeight + 0.0025;
  const back = -BACK_M * sizeOf(body);
  const along = (from: number, to: number): readonly Key[] => SEATED.map(([t, v]) => [t, from + (to - from) * v]);
  const rest = hand === 'left' ? 'right' : 'left';
  return {
    'root.up': along(0, down),
    'root.forward': along(0, back),
    pelvisPitch: [[0.2, 2], [0.95, 24], [1.6, -9], [2.3, -9], [2.95, 26], [3.55, 2]],
    trunkPitch: [[0.2, -1], [0.95, 20], [1.6, 9], [2.3, 9], [2.95, 22], [3.55, -1]],
    headPitch: [[0.2, 0], [0.95, -14], [1.6, 4], [2.3, 0], [2.95, -16], [3.55, 0]],
    headYaw: [[1.3, 0], [1.8, hand === 'left' ? 16 : -16], [2.4, 0]],
    [`${hand}Arm.elevation`]: [[0.3, 9], [1.0, 48], [1.5, 34], [1.95, 58], [2.15, 58], [2.6, 40], [3.45, 9]],
    [`${hand}Arm.plane`]: [[0.3, 12], [1.0, 82], [1.5, 74], [1.95, 60], [2.6, 82], [3.45, 12]],
    [`${hand}Arm.twist`]: [[1.3, 12], [1.95, 34], [2.15, 34], [2.6, 12]],
    [`${hand}Arm.elbow`]: [[0.3, 10], [1.5, 48], [1.95, 112], [2.15, 112], [2.6, 40], [3.45, 10]],
    [`${rest}Arm.elevation`]: [[0.3, 9], [1.0, 44], [1.55, 31], [2.4, 31], [2.8, 44], [3.45, 9]],
    [`${rest}Arm.plane`]: [[0.3, 12], [1.0, 82], [1.55, 76], [2.4, 76], [3.45, 12]],
    [`${rest}Arm.elbow`]: [[0.3, 10], [1.55, 42], [2.4, 42], [3.45, 10]],
    'leftFoot.kneeOut': along(0, 4),
    'rightFoot.kneeOut': along(0, 4),
  };
}

/** @param pace above 1 is slower; at 1 it takes 3.6 s */
export function sitDown(name: string, hand: Side, pace: number): Action {
  return {
    name,
    says: `Sits down on a stool, moves the ${hand} hand to the face, gets up.`,
    durationS: 3.6 * pace,
    channels: (body, timeS) => {
      const calm = channelsAt(body, pacedTracks(tracks(body, hand), pace), timeS);
      const share = alongKeys(paced(SEATED, pace), timeS);
      return {
        ...settled(calm, alive(calm, name, timeS, 0.6), share),
        // Within half a millimetre of the seat.
        support: { leftKnee: false, rightKnee: false, seat: share > 0.999 },
      };
    },
  };
}
