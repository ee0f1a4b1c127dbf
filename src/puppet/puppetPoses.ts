/**
 * The puppet's joints at a row of moments: shapes only.
 */
import type { JointName } from '../motion/joints.ts';
import type { PuppetKind, Triple } from './armature.ts';

export interface PuppetJoint {
  readonly name: string;
  readonly kind: PuppetKind;
  /** The performer's joint that moves it, or `null`. */
  readonly source: JointName | null;
  /** Unit axis that a positive angle is right-handed about, in the parent bone's axes; of balls and wires: not used. */
  readonly axis: Triple;
  /** False for a joint that nothing moves: the footage can never show it, and no curve is set. It stays at rest. */
  readonly observable: boolean;
  /**
   * The turn about the performer's bone that its angle rests on is off by more than TURN_LIMIT_DEG at more than half the moments: told once, not at
   * each. Never of balls and wires, whose angle is where the bone points; their turn has its error beside it.
   */
  readonly turnHidden: boolean;
}

/** Bits of {@link PuppetPoses.flags}. */
/** The wanted turn lies beyond a limit; a part of it is cut off. */
export const FLAG_CLIPPED = 1;
/** Gave a part of its turn to a neighbour that makes the same move, or took one. */
export const FLAG_SPREAD = 2;
/** The joint's kind cannot make a part of the performer's turn: more than its smallest move is lost. */
export const FLAG_LOST = 4;
/** Belongs to a leg whose standing foot cannot reach its place. */
export const FLAG_FOOT_SHORT = 8;
/** Belongs to a limb that cannot reach its pin. */
export const FLAG_PIN_SHORT = 16;

/**
 * N moments, P joints of the puppet in the order of the complete armature (parents before children).
 * - `rotations[N·P·4]` w, x, y, z, the joint's bone against its parent bone; continuous in sign; NaN where missing.
 * - `confidence[N·P]` the least of the performer's joints that were put together, leaving out those that are not observable;
 *   1 for a joint that only a hand-set curve moves.
 * - `state[N·P]` the worst of them.
 * - `errorDeg[N·P]` one sigma, degrees, put together from theirs; NaN where missing or none of them is observable. Of a ball or wire
 *   that of where its bone points; of other kinds that of the angle about the axis.
 * - `turnErrorDeg[N·P]` of balls and wires one sigma of the turn about the bone, degrees; NaN where errorDeg is NaN, where the performer's
 *   joint has no such turn of its own, and for other kinds, whose errorDeg has it already.
 * - `unsure[N·P]` UNSURE_* bits of all of them, and UNSURE_TURN where an angle about one axis rests on a turn about a bone that is not shown. `flags[N·P]` FLAG_* bits.
 */
export interface PuppetPoses {
  readonly joints: readonly PuppetJoint[];
  readonly rotations: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
  readonly flags: Uint8Array;
}
