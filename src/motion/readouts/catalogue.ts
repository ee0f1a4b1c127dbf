/** All readouts, and a readout over time. */
import { JOINT, JOINT_COUNT, type JointName } from '../joints.ts';
import { STATE_MISSING } from '../motion.ts';
import { readQuat } from '../../numeric/quaternion.ts';
import { ARM_READOUTS } from './arms.ts';
import { GIRDLE_READOUTS } from './girdle.ts';
import { LEG_READOUTS } from './legs.ts';
import type { Readout } from './readout.ts';
import { TRUNK_READOUTS } from './trunk.ts';

/** Trunk and head, arms, collar bones, legs. Ids are unique. */
export const READOUTS: readonly Readout[] = [...TRUNK_READOUTS, ...ARM_READOUTS, ...GIRDLE_READOUTS, ...LEG_READOUTS];

/** The readouts that are shown with one joint. */
export function readoutsOf(joint: JointName): readonly Readout[] {
  return READOUTS.filter((readout) => readout.joint === joint);
}

/** What a readout needs of a Motion or of Poses; shapes as there, N moments. */
export interface ReadablePoses {
  readonly rotations: Float64Array;
  readonly state: Uint8Array;
}

/**
 * - `deg[N]` degrees, NaN where missing. Goes on through ±180° without a jump; counted anew, within ±180°, behind a missing
 *   moment and behind a singular zone, where no turn can be followed.
 * - `singular[N]` 1 where the value stands in a zone in which it can't be told.
 */
export interface ReadoutSeries {
  readonly deg: Float64Array;
  readonly singular: Uint8Array;
}

const DEG_PER_RAD = 180 / Math.PI;

/** One readout at every moment. Pure; whoever asks often remembers the result. */
export function readoutSeries(poses: ReadablePoses, readout: Readout): ReadoutSeries {
  const count = poses.state.length / JOINT_COUNT;
  const deg = new Float64Array(count).fill(Number.NaN);
  const singular = new Uint8Array(count);
  let before = Number.NaN;
  for (let s = 0; s < count; s++) {
    if (poses.state[s * JOINT_COUNT + JOINT[readout.joint]] === STATE_MISSING) {
      before = Number.NaN;
      continue;
    }
    const { rad, singular: inZone } = readout.read((joint) => readQuat(poses.rotations, s * JOINT_COUNT + JOINT[joint]));
    const value = rad * DEG_PER_RAD;
    deg[s] = Number.isNaN(before) ? value : value + 360 * Math.round((before - value) / 360);
    before = inZone ? Number.NaN : deg[s]!;
    singular[s] = inZone ? 1 : 0;
  }
  return { deg, singular };
}
