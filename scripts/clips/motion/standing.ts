// The pose every action starts from, and the small unrest of a person who stands still.
import type { Body } from './body.ts';
import { sway } from './curve.ts';
import type { ArmChannels, Channels, FootChannels } from './pose.ts';
import { signOf, type Side } from './skeleton.ts';

/** A hanging arm: a few degrees from the body, the elbow not locked, the palm towards the thigh. */
export const HANGING: ArmChannels = {
  elevation: 9, plane: 12, twist: 12, elbow: 10, wristFlex: 4, wristThumb: 0, wristTwist: 18,
};

/** Half the distance between the ankles, and how far the toes point outward, when standing. */
const STANCE_HALF_M = 0.1;
const STANCE_YAW_DEG = 9;
/** How much lower than stretched a relaxed stander's pelvis is: about 6 degrees of knee. */
const SOFT_KNEES_M = 0.0025;

/** A foot flat on the floor with its ankle at (x, z). */
export function plantedFoot(body: Body, x: number, z: number, yaw = STANCE_YAW_DEG): FootChannels {
  return { ankle: [x, body.ankleHeight, z], pitch: 0, yaw, kneeOut: 0, toes: 0, onFloor: true };
}

/** The standing foot of one side. */
export const stanceFoot = (body: Body, side: Side): FootChannels =>
  plantedFoot(body, 0, signOf(side) * STANCE_HALF_M);

/** Upright and calm at the origin, facing +X. */
export function standing(body: Body): Channels {
  return {
    root: [0.01, body.hipHeight - SOFT_KNEES_M, 0],
    pelvisPitch: 2, pelvisLean: 0, pelvisYaw: 0,
    trunkPitch: -1, trunkLean: 0, trunkYaw: 0,
    headPitch: 0, headLean: 0, headYaw: 0,
    arms: { left: HANGING, right: HANGING },
    feet: { left: stanceFoot(body, 'left'), right: stanceFoot(body, 'right') },
  };
}

/** Adds the slight life of a body that balances and breathes; amount 1 is a calm stander. Feet and hinges of the arms are left alone. */
export function alive(c: Channels, seed: string, timeS: number, amount = 1): Channels {
  const s = (name: string, size: number): number => amount * size * sway(`${seed}/${name}`, timeS);
  return {
    ...c,
    // Down only: upward sway could ask more of a leg than it has.
    root: [c.root[0] + s('x', 0.002), c.root[1] - amount * 0.0006 * (1 + sway(`${seed}/y`, timeS)), c.root[2] + s('z', 0.002)],
    pelvisLean: c.pelvisLean + s('pelvisLean', 0.25),
    pelvisYaw: c.pelvisYaw + s('pelvisYaw', 0.3),
    trunkPitch: c.trunkPitch + s('trunkPitch', 0.4),
    trunkLean: c.trunkLean + s('trunkLean', 0.35),
    trunkYaw: c.trunkYaw + s('trunkYaw', 0.35),
    headPitch: c.headPitch + s('headPitch', 0.7),
    headLean: c.headLean + s('headLean', 0.5),
    headYaw: c.headYaw + s('headYaw', 0.8),
  };
}
