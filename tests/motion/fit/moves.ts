/** Moves that several tests of the fit film. */
import { JOINT_COUNT } from '../../../src/motion/joints.ts';
import type { Motion } from '../../../src/motion/motion.ts';
import { angleBetween, readQuat } from '../../../src/numeric/quaternion.ts';
import { BODY, stand, STANDING, type SyntheticPose } from './syntheticTake.ts';

const DEG = Math.PI / 180;

/** A squat to a knee of 90° and up again, every three seconds; arms rise with it. */
export function squat(timeS: number): SyntheticPose {
  const k = 45 * (1 - Math.cos((2 * Math.PI * timeS) / 3));
  const arm = { forward: k * 0.8, sideways: 8, elbow: 8 };
  const leg = { forward: k * 0.5, sideways: 0, knee: k };
  return stand({ ...STANDING, trunk: k * 0.35, arms: [arm, arm], legs: [leg, leg] });
}

const STEP_S = 0.6;
const STEP_M = 0.5;

/** A walk across the picture of a camera in front, to its right; `lengthS` long, passing the middle at half time. The standing leg is straight and its foot stays. */
export function walkAcross(timeS: number, lengthS: number): SyntheticPose {
  const step = Math.floor(timeS / STEP_S);
  const u = timeS / STEP_S - step;
  const reach = STEP_M / 2 / (BODY.thigh + BODY.shank);
  const behind = Math.asin(reach * (2 * u - 1)) / DEG;
  const bend = 50 * Math.sin(Math.PI * u) ** 2;
  const stands = { forward: -behind, sideways: 0, knee: 0 };
  const swings = { forward: behind + bend / 2, sideways: 0, knee: bend };
  const swing = 20 * Math.sin(Math.PI * (step + u - 0.5));
  const arm = (forward: number): SyntheticPose['arms'][number] => ({ forward, sideways: 8, elbow: 15 });
  return stand({
    ...STANDING, yaw: 90, root: [0, 0.9, STEP_M * (lengthS / STEP_S / 2 - step - u)],
    arms: [arm(swing), arm(-swing)], legs: step % 2 === 0 ? [stands, swings] : [swings, stands],
  });
}

/** Largest turn of a joint between neighbouring frames, degrees. */
export function largestStepDeg({ rotations, timesS }: Pick<Motion, 'rotations' | 'timesS'>, joint: number): number {
  let largest = 0;
  for (let t = 1; t < timesS.length; t++) {
    const [before, after] = [readQuat(rotations, (t - 1) * JOINT_COUNT + joint), readQuat(rotations, t * JOINT_COUNT + joint)];
    largest = Math.max(largest, angleBetween(before, after));
  }
  return largest / DEG;
}
