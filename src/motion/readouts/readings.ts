/** All readouts of one joint over time, with what is known of their error: what a chart of them is drawn from. */
import { readQuat } from '../../numeric/quaternion.ts';
import { JOINT, JOINT_COUNT, type JointName } from '../joints.ts';
import { STATE_MISSING } from '../motion.ts';
import { readoutSeries, readoutsOf, type ReadablePoses } from './catalogue.ts';
import { readoutErrorDeg } from './readoutError.ts';

/** A Motion or Poses, N moments; shapes as there. */
export interface ReadableWithErrors extends ReadablePoses {
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
}

/** `deg[N]`, `singular[N]` as in ReadoutSeries; `errorDeg[N]` one sigma, NaN where not known. */
export interface Reading {
  /** Id of the readout in the catalogue. */
  readonly id: string;
  readonly deg: Float64Array;
  readonly singular: Uint8Array;
  readonly errorDeg: Float32Array;
}

/** `state[N]` STATE_*, `unsure[N]` UNSURE_* bits of the joint. */
export interface Readings {
  readonly joint: JointName;
  readonly state: Uint8Array;
  readonly unsure: Uint8Array;
  readonly readings: readonly Reading[];
}

export function readingsOf(poses: ReadableWithErrors, joint: JointName): Readings {
  const count = poses.state.length / JOINT_COUNT;
  const own = JOINT[joint];
  const ofJoint = (all: Uint8Array): Uint8Array => Uint8Array.from({ length: count }, (_, s) => all[s * JOINT_COUNT + own]!);
  const state = ofJoint(poses.state);
  return {
    joint, state, unsure: ofJoint(poses.unsure),
    readings: readoutsOf(joint).map((readout) => ({
      id: readout.id,
      ...readoutSeries(poses, readout),
      errorDeg: Float32Array.from({ length: count }, (_, s) => (state[s] === STATE_MISSING ? Number.NaN : readoutErrorDeg(
        readout, (name) => readQuat(poses.rotations, s * JOINT_COUNT + JOINT[name]),
        { errorDeg: poses.errorDeg[s * JOINT_COUNT + own]!, turnErrorDeg: poses.turnErrorDeg[s * JOINT_COUNT + own]! },
      ))),
    })),
  };
}
