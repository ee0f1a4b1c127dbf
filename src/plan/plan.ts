/**
 * The plan: everything that is true of every step. Pure data, made by `plan/makePlan.ts`.
 */
import type { Balance } from '../balance/balance.ts';
import type { ChainPoint } from '../puppet/chainPoints.ts';
import type { PuppetJoint } from '../puppet/puppetPoses.ts';
import type { HeadAndShoulders } from '../timing/moments/headAndShoulders.ts';
import type { LimbRates } from '../timing/moments/limbRates.ts';
import type { MomentsOnSteps } from '../timing/moments/moments.ts';
import type { Snapped } from '../timing/snap/snapExtremes.ts';
import type { Datum } from './datums.ts';

/** One joint of the puppet as the plan speaks of it. */
export type PlanJoint = PuppetJoint;

/** A bone with a sole. */
export interface PlanFoot {
  readonly name: string;
  /** Index of the bone, which is that of the joint that turns it. */
  readonly bone: number;
}

/**
 * N steps, P joints of the puppet (order of `joints`; bone p is turned by joint p), C points, F feet.
 *
 * Two poses stand beside each other: the **exact** one, which the performance, the limits, the floor and the pins give, and
 * the **ordered** one, which a hand can set: every joint rounded to its smallest move. What is to be moved, how far points
 * travel and where a datum is read all belong to the ordered one.
 *
 * - `exposure[N]` first exposure of the step, counted from 1. `holds[N]` for how many exposures it is held (`on`, where no span of
 *   its own says otherwise); `exposureCount` of all steps.
 * - `filmTimeS[N]` seconds from the first exposure, on the film.
 * - `sourceTimeS[N]` the container's time that the pose was taken from.
 * - `rotations[N·P·4]` exact: w, x, y, z, bone against parent bone, continuous in sign; NaN where missing. `orderedRotations[N·P·4]` likewise.
 * - `angleDeg[N·P]`, `orderedAngleDeg[N·P]` hinge, swivel, screw: signed turn about the joint's axis (bending positive for elbows and
 *   knees); ball, wire: size of the turn from rest, 0..180.
 * - `incrementDeg[N·P]` what to move since the step before, as ordered (0 at the first pose; after a gap since the last pose
 *   before it): signed about the axis; ball and wire: size of the turn (≥ 0).
 * - `turnDeg[N·P·3]` the same move as a rotation vector in the axes of the parent bone, degrees:
 *   x about its forward axis, y about its up axis, z about its axis to the right.
 * - `keyTurns[N·P]` the same move in turns of the key; NaN for joints that are no screws.
 * - `flags[N·P]` FLAG_* bits of `puppet/puppetPoses.ts`: clipped at a limit, spread to neighbours, lost, out of reach.
 * - `confidence[N·P]` 0..1. `state[N·P]` STATE_* of motion.
 * - `errorDeg[N·P]` one sigma of the joint's angle, degrees; NaN where missing or not observable.
 *   Of a ball or wire the error of where its bone points; `turnErrorDeg[N·P]` that of its turn about the bone, NaN where it has none
 *   of its own and for other kinds, whose errorDeg has it already. `unsure[N·P]` UNSURE_* bits of motion.
 * - `rootM[N·3]` path of the performer's mid-hip as in Motion.
 * - `rootMm[N·3]` exact place of the start of the puppet's root bone on the set: X forward (toward the camera in front), Y above
 *   the stage floor, Z to the left of its picture. `orderedRootMm[N·3]` where it is when the joints stand as ordered.
 * - `planted[N·F]` 1 where a foot stands. `holding[N]` index of the foot that holds the puppet, -1 where a rig does.
 * - `pointMm[N·C·3]` ordered places on the set. `travelMm[N·C]` way since the pose before; `hour[N·C]` its direction across
 *   the taking camera's picture on a clock face (NaN where too small); `towardMm[N·C]` toward the lens (negative: away).
 */
export interface Plan {
  readonly rate: number;
  readonly on: number;
  readonly stepCount: number;
  readonly joints: readonly PlanJoint[];
  readonly exposure: Int32Array;
  readonly holds: Int32Array;
  readonly exposureCount: number;
  readonly filmTimeS: Float64Array;
  readonly sourceTimeS: Float64Array;
  readonly rotations: Float64Array;
  readonly angleDeg: Float64Array;
  readonly orderedRotations: Float64Array;
  readonly orderedAngleDeg: Float64Array;
  readonly incrementDeg: Float64Array;
  readonly turnDeg: Float64Array;
  readonly keyTurns: Float64Array;
  readonly flags: Uint8Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
  readonly rootM: Float64Array;
  readonly rootMm: Float64Array;
  readonly orderedRootMm: Float64Array;
  readonly feet: readonly PlanFoot[];
  readonly planted: Uint8Array;
  readonly holding: Int32Array;
  readonly points: readonly ChainPoint[];
  readonly pointMm: Float64Array;
  readonly travelMm: Float64Array;
  readonly hour: Float64Array;
  readonly towardMm: Float64Array;
  readonly datums: readonly Datum[];
  /** Moves and pauses, by limb and of the whole body. */
  readonly moments: MomentsOnSteps;
  readonly limbRates: LimbRates;
  /** Whether the head goes with the shoulders. */
  readonly headAndShoulders: HeadAndShoulders;
  /** Extremes that were drawn to a step, and those that could not be. */
  readonly bentTime: Pick<Snapped, 'bent' | 'left'>;
  readonly balance: Balance;
  /** The performer's height, metres, as far as the legs tell it: for the time scale that is offered (`puppet/timeScale.ts`). */
  readonly performerHeightM: number;
  /** As in Motion: read from a body fitted to the whole take, or from the landmarks of each frame alone. */
  readonly fitted: boolean;
  readonly usedCutoffHz: number | null;
  readonly warnings: readonly string[];
}
