/** How far joints turn in a move, and wander in a pause. */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import type { Motion } from '../../motion/motion.ts';
import { jointsOf, type MomentsOf } from './moments.ts';

const DEG_PER_RAD = 180 / Math.PI;

/** What is needed of a motion to say how far its joints turn. */
export type Turning = Pick<Motion, 'rotations' | 'observable'>;

/** Of the joints of a limb, or of the body, those that can be seen: a joint that can't be stays at rest. */
export function seenJointsOf({ observable }: Pick<Motion, 'observable'>, of: MomentsOf): readonly number[] {
  return jointsOf(of).map((name) => JOINT[name]).filter((j) => observable[j] === 1);
}

/** Turn of a joint from one frame to another, degrees; NaN where it is missing. */
export function turnBetween({ rotations }: Turning, joint: number, from: number, to: number): number {
  const a = (from * JOINT_COUNT + joint) * 4;
  const b = (to * JOINT_COUNT + joint) * 4;
  const together = rotations[a]! * rotations[b]! + rotations[a + 1]! * rotations[b + 1]! + rotations[a + 2]! * rotations[b + 2]! + rotations[a + 3]! * rotations[b + 3]!;
  const sign = together < 0 ? -1 : 1;
  // from the chord, which is exact for small turns where the arc cosine is not
  const chord = Math.hypot(rotations[b]! - sign * rotations[a]!, rotations[b + 1]! - sign * rotations[a + 1]!, rotations[b + 2]! - sign * rotations[a + 2]!, rotations[b + 3]! - sign * rotations[a + 3]!);
  return 4 * Math.asin(Math.min(1, chord / 2)) * DEG_PER_RAD;
}

/**
 * The farthest that any of some joints gets from where it was at frame `from`, so that a there-and-back is no nothing.
 *
 * @param weights how much each joint counts when it is asked which of them gets farthest; all alike if left out
 * @returns degrees: as it is, and as it is weighed; which joint it is: -1 where none turns
 */
export function farthestTurn(motion: Turning, joints: readonly number[], from: number, to: number, weights?: readonly number[]): { readonly deg: number; readonly weighedDeg: number; readonly joint: number } {
  let deg = 0;
  let best = -1;
  let weighedDeg = 0;
  joints.forEach((joint, j) => {
    for (let t = from + 1; t <= to; t++) {
      const turned = turnBetween(motion, joint, from, t);
      const weighed = turned * (weights?.[j] ?? 1);
      if (weighed > weighedDeg) {
        deg = turned;
        weighedDeg = weighed;
        best = joint;
      }
    }
  });
  return { deg, weighedDeg, joint: best };
}

/** Largest turn of a joint away from where it was at the beginning of a pause, degrees. */
export function driftOf(motion: Turning & Pick<Motion, 'timesS'>, of: MomentsOf, fromS: number, toS: number): number {
  const { timesS } = motion;
  let from = 0;
  while (from < timesS.length && timesS[from]! < fromS) from++;
  let to = from;
  while (to + 1 < timesS.length && timesS[to + 1]! <= toS) to++;
  return from < timesS.length && timesS[from]! <= toS ? farthestTurn(motion, seenJointsOf(motion, of), from, to).deg : 0;
}
