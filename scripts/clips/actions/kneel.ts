// Steps apart, goes down on one knee, does something with the arms there, stays.
import type { Body } from '../motion/body.ts';
import { alongKeys, type Key } from '../motion/curve.ts';
import { poseFrom, type Channels } from '../motion/pose.ts';
import { withinReach } from '../motion/reach.ts';
import { rolledFeet } from '../motion/roll.ts';
import { pacedTracks, settled, sizeOf } from '../motion/scale.ts';
import { placeJoints, type Side } from '../motion/skeleton.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

const DOWN: readonly Key[] = [[0.95, 0], [2.1, 1]];
/** Half the thickness of a knee in trousers (m), for limbs of girth 1. */
const KNEE_M = 0.062;

function tracks(body: Body, knee: Side): Tracks {
  const size = sizeOf(body);
  const front = knee === 'left' ? 'right' : 'left';
  return {
    // The front foot steps forward, then the other back onto its ball; the heel rises as the knee goes down.
    [`${front}Foot.forward`]: [[0.15, 0], [0.55, 0.2 * size]],
    [`${front}Foot.up`]: [[0.15, 0], [0.35, 0.06], [0.55, 0]],
    [`${knee}Foot.forward`]: [[0.55, 0], [1.0, -0.49 * size]],
    [`${knee}Foot.up`]: [[0.55, 0], [0.78, 0.05], [1.0, 0]],
    [`${knee}Foot.pitch`]: [[0.5, 0], [1.0, -38], [2.1, -74]],
    [`${knee}Foot.yaw`]: [[0.5, 9], [1.0, 3]],
    'root.forward': [[0.15, 0], [0.55, 0.07 * size], [1.0, -0.06 * size], [2.1, -0.03 * size]],
    'root.right': [[0.1, 0], [0.35, knee === 'right' ? 0.05 : -0.05], [0.75, knee === 'right' ? -0.05 : 0.05], [1.05, 0]],
    pelvisPitch: [[0.6, 2], [1.5, 8], [2.1, 2]],
    trunkPitch: [[0.6, -1], [1.5, 12], [2.2, 3], [2.6, 10], [3.1, 3]],
    headPitch: [[0.6, 0], [1.5, 12], [2.2, 0]],
    headYaw: [[2.2, 0], [2.7, knee === 'right' ? 18 : -18], [3.4, knee === 'right' ? 18 : -18]],
    [`${front}Arm.elevation`]: [[0.8, 9], [1.9, 34], [2.3, 34], [2.85, 88], [3.2, 88]],
    [`${front}Arm.plane`]: [[0.8, 12], [1.9, 78], [2.3, 78], [2.85, 40]],
    [`${front}Arm.elbow`]: [[0.8, 10], [1.9, 46], [2.3, 46], [2.85, 14]],
    [`${knee}Arm.elevation`]: [[0.8, 9], [1.8, 22], [2.4, 16]],
    [`${knee}Arm.elbow`]: [[0.8, 10], [1.8, 30], [2.4, 22]],
  };
}

/** How far the root of these channels must sink for the knee to lie on the floor, m; negative. */
function sinkM(body: Body, c: Channels, knee: Side): number {
  const heightAt = (sink: number): number =>
    placeJoints(body, poseFrom(body, { ...c, root: [c.root[0], c.root[1] + sink, c.root[2]] }))[`${knee}Knee`].position[1];
  const wanted = KNEE_M * body.limbGirth;
  let [low, high] = [-0.6 * body.hipHeight, -0.25 * body.hipHeight];
  for (let i = 0; i < 50; i += 1) {
    const middle = (low + high) / 2;
    if (heightAt(middle) > wanted) high = middle;
    else low = middle;
  }
  return high;
}

/** @param pace above 1 is slower; at 1 it takes 3.5 s @param knee the one that goes to the floor */
export function kneel(name: string, knee: Side, pace: number): Action {
  const sinks = new Map<string, number>();
  return {
    name,
    says: `Goes down on the ${knee} knee and stays there, pointing with the other arm.`,
    durationS: 3.5 * pace,
    channels: (body, timeS) => {
      const table = pacedTracks(tracks(body, knee), pace);
      const at = (t: number): Channels => rolledFeet(body, channelsAt(body, table, t));
      let sink = sinks.get(body.name);
      if (sink === undefined) {
        sink = sinkM(body, at(2.1 * pace), knee);
        sinks.set(body.name, sink);
      }
      const share = alongKeys(DOWN, timeS / pace);
      const c = at(timeS);
      const calm: Channels = { ...c, root: [c.root[0], c.root[1] + share * sink, c.root[2]] };
      const on = share > 0.9995;
      return withinReach(body, {
        ...settled(calm, alive(calm, name, timeS, 0.6), share),
        support: { leftKnee: on && knee === 'left', rightKnee: on && knee === 'right', seat: false },
      });
    },
  };
}
