// A walk of six steps from standing to standing: the right foot strikes three times, two full cycles.
import type { Body } from '../motion/body.ts';
import { minimumJerk, sway } from '../motion/curve.ts';
import { footAt, pelvisForward, type Gait } from '../motion/gait.ts';
import type { ArmChannels, Channels } from '../motion/pose.ts';
import { withinReach } from '../motion/reach.ts';
import { sagittal } from '../motion/scale.ts';
import { HANGING, alive, standing } from '../motion/standing.ts';
import { signOf, type Side } from '../motion/skeleton.ts';
import type { Action } from './action.ts';

export const GAIT: Gait = {
  startS: 0.75, stepS: 0.54, doubleS: 0.12, stepM: 0.5, steps: 6, firstX: -1.25,
  halfWidthM: 0.065, toeOutDeg: 6, strikePitchDeg: 17, toeOffPitchDeg: -48, clearM: 0.052,
};

/** 0 while standing, 1 while walking. */
function vigour(g: Gait, timeS: number): number {
  const end = g.startS + g.steps * g.stepS;
  return minimumJerk((timeS - g.startS + 0.2) / 0.7) * (1 - minimumJerk((timeS - end + 0.55) / 0.75));
}

function channels(body: Body, g: Gait, name: string, timeS: number): Channels {
  const c = standing(body);
  const on = vigour(g, timeS);
  // One turn of `cycle` is a stride of two steps; at 0 the right foot strikes.
  const cycle = (2 * Math.PI * (timeS - g.startS - g.stepS)) / (2 * g.stepS);
  const stride = Math.cos(cycle - 0.25);
  const arm = (side: Side): ArmChannels => {
    // An arm swings with the other leg: back when its own foot strikes.
    const swing = -signOf(side) * Math.cos(cycle - 0.12) * on;
    return {
      ...HANGING,
      // Plane and elevation stand for a swing in the sagittal plane and a small constant spread.
      ...sagittal(4 + 21 * swing, 8),
      elbow: HANGING.elbow + on * (9 + 10 * Math.max(-0.4, swing)),
    };
  };
  const rise = 0.019 * Math.cos(2 * cycle - 0.25);
  return {
    ...c,
    root: [
      pelvisForward(g)(timeS),
      c.root[1] - on * (0.019 + rise),
      0.022 * on * Math.sin(cycle - 0.1),
    ],
    pelvisPitch: 2 + 2.5 * on,
    pelvisYaw: 5 * on * stride,
    pelvisLean: 3.2 * on * Math.sin(cycle + 0.35),
    trunkPitch: -1 + on * 0.5,
    trunkYaw: -9 * on * stride,
    trunkLean: -3.5 * on * Math.sin(cycle + 0.35),
    headYaw: 4 * on * stride,
    headPitch: 1.5 * on * Math.cos(2 * cycle) + 0.4 * sway(`${name}/nod`, timeS),
    arms: { left: arm('left'), right: arm('right') },
    feet: { left: footAt(body, 'left', g, timeS), right: footAt(body, 'right', g, timeS) },
  };
}

/** A walk from standing to standing. */
export function walkWith(name: string, says: string, gait: Gait, durationS: number): Action {
  return {
    name, says, durationS,
    channels: (body, timeS) => withinReach(body, alive(channels(body, gait, name, timeS), name, timeS, 0.5)),
  };
}

export const walk: Action = walkWith('walk', 'From standing, six steps (two full cycles of the right foot, strike to strike), to standing.', GAIT, 4.9);
