/**
 * The plan: everything that is true of every step. Pure data, made by `plan/makePlan.ts`.
 */
import type { PuppetJoint } from '../puppet/puppetPoses.ts';

/** One joint of the puppet as the plan speaks of it. */
export type PlanJoint = PuppetJoint;

/**
 * N steps, P joints of the puppet (order of `joints`).
 *
 * - `exposure[N]` first exposure of the step, counted from 1; step s (from 1) is held for `on` exposures.
 * - `filmTimeS[N]` seconds from the first exposure, on the film.
 * - `sourceTimeS[N]` the container's time that the pose was taken from.
 * - `rotations[N·P·4]` w, x, y, z, child relative to parent, continuous in sign; NaN where missing.
 * - `angleDeg[N·P]` hinge: flexion from straight, signed; swivel: signed turn about the bone; ball: size of the turn from rest, 0..180.
 * - `incrementDeg[N·P]` since the step before (0 at the first): signed for hinge and swivel, size of the turn (≥ 0) for a ball.
 * - `turnDeg[N·P·3]` the same increment as a rotation vector in the axes of the parent segment, degrees:
 *   x about its forward axis, y about its up axis, z about its axis to the right.
 * - `confidence[N·P]` 0..1. `state[N·P]` STATE_* of motion.
 * - `errorDeg[N·P]` one sigma of the joint's angle, degrees; NaN where missing or not observable. `unsure[N·P]` UNSURE_* bits of motion.
 * - `rootM[N·3]` path of the mid-hip as in Motion.
 */
export interface Plan {
  readonly rate: number;
  readonly on: number;
  readonly stepCount: number;
  readonly joints: readonly PlanJoint[];
  readonly exposure: Int32Array;
  readonly filmTimeS: Float64Array;
  readonly sourceTimeS: Float64Array;
  readonly rotations: Float64Array;
  readonly angleDeg: Float64Array;
  readonly incrementDeg: Float64Array;
  readonly turnDeg: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly unsure: Uint8Array;
  readonly rootM: Float64Array;
  /** As in Motion: read from a body fitted to the whole take, or from the landmarks of each frame alone. */
  readonly fitted: boolean;
  readonly usedCutoffHz: number | null;
  readonly warnings: readonly string[];
}
