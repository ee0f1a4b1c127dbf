// A deep lean from the hips on nearly straight legs, held, and back.
import { rolledFeet } from '../motion/roll.ts';
import { withinReach } from '../motion/reach.ts';
import { pacedTracks, sizeOf } from '../motion/scale.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

export interface Lean {
  /** Of the chest at the deepest, degrees: forward, to the performer's right, and turned to the left. */
  readonly forwardDeg: number;
  readonly sideDeg: number;
  readonly turnDeg: number;
  /** Above 1 is slower; at 1 it takes 3 s. */
  readonly pace: number;
  readonly reach: 'down' | 'out';
}

function tracks(l: Lean, size: number): Tracks {
  const there = (rest: number, full: number, lateS = 0): readonly (readonly [number, number])[] =>
    [[0.25 + lateS, rest], [1.25 + lateS, full], [1.75, full], [2.75, rest]];
  const arms = l.reach === 'down'
    ? { elevation: l.forwardDeg + 8, plane: 86, elbow: 8 } : { elevation: 100, plane: 20, elbow: 12 };
  return {
    'root.forward': there(0, -0.0019 * l.forwardDeg * size),
    'root.right': there(0, -0.0025 * l.sideDeg * size),
    pelvisPitch: there(2, 0.62 * l.forwardDeg),
    trunkPitch: there(-1, 0.38 * l.forwardDeg),
    pelvisLean: there(0, 0.35 * l.sideDeg),
    trunkLean: there(0, 0.65 * l.sideDeg),
    pelvisYaw: there(0, 0.25 * l.turnDeg),
    trunkYaw: there(0, 0.75 * l.turnDeg),
    headPitch: there(0, -0.15 * l.forwardDeg),
    'leftArm.elevation': there(9, arms.elevation, 0.05), 'rightArm.elevation': there(9, arms.elevation - 6, 0.05),
    'leftArm.plane': there(12, arms.plane, 0.05), 'rightArm.plane': there(12, arms.plane - 4, 0.05),
    'leftArm.elbow': there(10, arms.elbow), 'rightArm.elbow': there(10, arms.elbow + 10),
    'leftFoot.outward': [[0, 0.05]], 'rightFoot.outward': [[0, 0.05]],
  };
}

export function lean(name: string, l: Lean): Action {
  return {
    name,
    says: `Leans ${l.forwardDeg}° forward and ${l.sideDeg}° to the right on nearly straight legs, holds, comes back.`,
    durationS: 3 * l.pace,
    channels: (body, timeS) => {
      const c = channelsAt(body, pacedTracks(tracks(l, sizeOf(body)), l.pace), timeS);
      return withinReach(body, alive(rolledFeet(body, c), name, timeS, 0.6));
    },
  };
}
