// Begins with the slate pose: a second with arms and legs straight, then elbows at a right angle; then moves.
import { pacedTracks } from '../motion/scale.ts';
import { alongKeys } from '../motion/curve.ts';
import { signOf, type Side } from '../motion/skeleton.ts';
import { alive } from '../motion/standing.ts';
import { channelsAt, type Tracks } from '../motion/tracks.ts';
import type { Action } from './action.ts';

/** Straight until STRAIGHT_S; square, upper arms level to the sides and forearms up, from SQUARE_FROM_S to SQUARE_TO_S. */
export const STRAIGHT_S = 1;
export const SQUARE_FROM_S = 1.45;
export const SQUARE_TO_S = 2.05;

function tracks(lift: Side, pace: number): Tracks {
  const s = signOf(lift);
  const other = lift === 'left' ? 'right' : 'left';
  const after = pacedTracks({
    // One knee up with the arm of the other side forward, a moment on one leg, down again.
    'root.right': [[0, 0], [0.4, -s * 0.092], [1.5, -s * 0.092], [1.95, 0]],
    'root.up': [[0, 0.0021], [0.4, -0.008], [1.5, -0.008], [1.95, 0]],
    pelvisLean: [[0.1, 0], [0.8, s * 3], [1.2, s * 3], [1.8, 0]],
    [`${lift}Foot.up`]: [[0.35, 0], [0.95, 0.31], [1.15, 0.31], [1.75, 0]],
    [`${lift}Foot.forward`]: [[0.35, 0], [0.95, 0.1], [1.15, 0.1], [1.75, 0]],
    [`${lift}Foot.pitch`]: [[0.35, 0], [0.8, -22], [1.2, -22], [1.75, 0]],
    headYaw: [[0.2, 0], [0.9, s * 14], [1.3, s * 14], [1.9, 0]],
  }, pace);
  const shifted = Object.fromEntries(Object.entries(after).map(([name, keys]) => [name, keys.map(([t, v]) => [t + SQUARE_TO_S, v])]));
  const t = (u: number): number => SQUARE_TO_S + u * pace;
  const arm = (side: Side, forward: boolean): Tracks => ({
    [`${side}Arm.elevation`]: [[STRAIGHT_S, 22], [SQUARE_FROM_S, 90], [SQUARE_TO_S, 90], [t(0.9), forward ? 78 : 30], [t(1.2), forward ? 78 : 30], [t(1.9), 9]],
    [`${side}Arm.plane`]: [[STRAIGHT_S, 2], [SQUARE_FROM_S, 2], [SQUARE_TO_S, 2], [t(0.9), forward ? 64 : 10], [t(1.9), 12]],
    [`${side}Arm.twist`]: [[STRAIGHT_S, 0], [SQUARE_FROM_S, -88], [SQUARE_TO_S, -88], [t(0.9), 5], [t(1.9), 12]],
    [`${side}Arm.elbow`]: [[STRAIGHT_S, 1.5], [SQUARE_FROM_S, 90], [SQUARE_TO_S, 90], [t(0.9), forward ? 22 : 36], [t(1.9), 10]],
    [`${side}Arm.wristFlex`]: [[STRAIGHT_S, 0], [t(1.9), 4]],
    [`${side}Arm.wristTwist`]: [[STRAIGHT_S, 0], [t(1.9), 18]],
  });
  return { ...shifted, ...arm(lift, false), ...arm(other, true) } as Tracks;
}

/** @param lift the leg that is lifted after the slate pose @param pace of what comes after; at 1 the take has 4.2 s */
export function slate(name: string, lift: Side, pace: number): Action {
  return {
    name,
    says: `Slate pose (straight to ${STRAIGHT_S} s; elbows square from ${SQUARE_FROM_S} to ${SQUARE_TO_S} s, upper arms level to the sides, forearms up), then lifts the ${lift} knee and reaches forward.`,
    durationS: Math.round((SQUARE_TO_S + 2.1 * pace) * 10) / 10,
    channels: (body, timeS) => alive(
      channelsAt(body, tracks(lift, pace), timeS), name, timeS, alongKeys([[STRAIGHT_S, 0.12], [SQUARE_TO_S, 0.2], [SQUARE_TO_S + 0.8, 0.7]], timeS)),
  };
}
