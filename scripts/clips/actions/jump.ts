// A jump from both feet: crouch, push over the balls of the feet, flight under gravity, landing on the balls, standing.
import type { Body } from '../motion/body.ts';
import { alongKeys, minimumJerk, type Key } from '../motion/curve.ts';
import { glide } from '../motion/gait.ts';
import { rolled } from '../motion/roll.ts';
import type { Channels, FootChannels } from '../motion/pose.ts';
import { sagittal, sizeOf } from '../motion/scale.ts';
import type { Side } from '../motion/skeleton.ts';
import { alive, standing, stanceFoot } from '../motion/standing.ts';
import { withinReach } from '../motion/reach.ts';
import type { Action } from './action.ts';

const GRAVITY = 9.81;

export interface Jump {
  readonly crouchS: number;
  readonly pushS: number;
  /** How far the hips rise in the air (m), and how far the jump goes forward. */
  readonly riseM: number;
  readonly forwardM: number;
  readonly armsDeg: number;
}

const START_S = 0.25;
const ABSORB_S = 0.24;
const RECOVER_S = 0.62;
const OFF_PITCH_DEG = -40;
const LANDING_PITCH_DEG = -24;

/** Times of take-off, touch-down, deepest landing, and standing again, s. */
function phases(j: Jump): { crouched: number; off: number; down: number; deepest: number; up: number } {
  const crouched = START_S + j.crouchS;
  const off = crouched + j.pushS;
  const down = off + 2 * Math.sqrt((2 * j.riseM) / GRAVITY);
  return { crouched, off, down, deepest: down + ABSORB_S, up: down + ABSORB_S + RECOVER_S };
}

function foot(body: Body, side: Side, pitch: number, forwardM: number): FootChannels {
  const flat = stanceFoot(body, side);
  return rolled(body, side, { ...flat, ankle: [flat.ankle[0] + forwardM, flat.ankle[1], flat.ankle[2]], pitch });
}

function channels(body: Body, j: Jump, timeS: number): Channels {
  const p = phases(j);
  const base = standing(body);
  const size = sizeOf(body);
  const stand = base.root[1];
  const offY = foot(body, 'left', OFF_PITCH_DEG, 0).ankle[1] + (body.hipHeight - body.ankleHeight) * 0.992;
  const landY = foot(body, 'left', LANDING_PITCH_DEG, 0).ankle[1] + (body.hipHeight - body.ankleHeight) * 0.972;
  const flight = p.down - p.off;
  const speed = (landY - offY) / flight + (GRAVITY * flight) / 2;
  const share = (from: number, to: number): number => (timeS - from) / (to - from);
  const inAir = timeS > p.off && timeS < p.down;

  let y: number;
  if (timeS < p.crouched) y = stand - 0.24 * size * minimumJerk(share(START_S, p.crouched));
  else if (timeS < p.off) y = glide(stand - 0.24 * size, 0, offY, speed * j.pushS, share(p.crouched, p.off));
  else if (timeS < p.down) y = offY + speed * (timeS - p.off) - (GRAVITY * (timeS - p.off) ** 2) / 2;
  else if (timeS < p.deepest) y = glide(landY, (speed - GRAVITY * flight) * ABSORB_S, stand - 0.2 * size, 0, share(p.down, p.deepest));
  else y = stand - 0.2 * size * (1 - minimumJerk(share(p.deepest, p.up)));

  const lead = 0.12 * Math.min(1, j.forwardM * 4);
  const xAt: readonly Key[] = [[p.crouched, -0.06], [p.off, lead * 0.7], [p.down, j.forwardM - 0.05], [p.deepest, j.forwardM - 0.04], [p.up, j.forwardM]];
  const u = Math.min(1, Math.max(0, share(p.off, p.down)));
  const feet = (side: Side): FootChannels => {
    const pitch = timeS <= p.off
      ? OFF_PITCH_DEG * Math.max(0, share(p.off - 0.17, p.off)) ** 1.6
      : timeS < p.down ? OFF_PITCH_DEG + (LANDING_PITCH_DEG - OFF_PITCH_DEG) * minimumJerk(u)
        : LANDING_PITCH_DEG * (1 - minimumJerk((timeS - p.down) / 0.12));
    const made = foot(body, side, pitch, j.forwardM * minimumJerk(u));
    if (!inAir) return made;
    // In the air the feet hang under the hips; the knees are drawn up a little.
    const hang = (offY - foot(body, side, OFF_PITCH_DEG, 0).ankle[1]) * (1 - u) + (landY - foot(body, side, LANDING_PITCH_DEG, 0).ankle[1]) * u;
    return { ...made, ankle: [made.ankle[0], y - hang + 0.07 * size * 16 * u * u * (1 - u) ** 2, made.ankle[2]], onFloor: false };
  };
  const swing = alongKeys([[START_S, 4], [p.crouched - 0.05, -35], [p.off + 0.1, j.armsDeg], [p.down, j.armsDeg * 0.55], [p.up, 4]], timeS);
  const fold: readonly Key[] = [[START_S, 0], [p.crouched, 1], [p.off, 0], [p.down, 0.25], [p.deepest, 0.9], [p.up, 0]];
  const bend = alongKeys(fold, timeS);
  const arm = { ...base.arms.left, ...sagittal(swing, 9), elbow: 12 + 16 * alongKeys([[START_S, 0], [p.crouched, 1], [p.off, 0.4], [p.up, 0]], timeS) };
  return {
    ...base,
    root: [base.root[0] + alongKeys(xAt, timeS), y, base.root[2]],
    pelvisPitch: 2 + 24 * bend, trunkPitch: -1 + 13 * bend, headPitch: -20 * bend,
    arms: { left: arm, right: { ...arm, elbow: arm.elbow + 2 } },
    feet: { left: feet('left'), right: feet('right') },
  };
}

/** One jump, with a moment of standing before and after. */
export function jump(name: string, j: Jump): Action {
  const p = phases(j);
  return {
    name,
    says: `Jumps from both feet${j.forwardM > 0 ? `, ${j.forwardM} m forward` : ' on the spot'}; the hips rise ${j.riseM} m in the air.`,
    durationS: Math.round((p.up + 0.3) * 10) / 10,
    channels: (body, timeS) => {
      const c = channels(body, j, timeS);
      return withinReach(body, timeS > p.off && timeS < p.down ? c : alive(c, name, timeS, 0.3));
    },
  };
}
