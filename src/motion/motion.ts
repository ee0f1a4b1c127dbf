/**
 * The motion: the performer's joint rotations over source time. Pure data, made by `motion/trackToMotion.ts`.
 */

/** Where a number comes from: measured in that frame, bridged over a short gap, or not known at all. */
export const STATE_MEASURED = 0;
export const STATE_BRIDGED = 1;
export const STATE_MISSING = 2;

/**
 * T frames, J = JOINT_COUNT joints in the order of JOINT_NAMES.
 *
 * Frame of reference: right-handed body axes (ISB): X forward, Y up, Z to the right. The stage frame that the
 * pelvis turns against has X toward the camera, Y up, Z to the left of the picture as the camera sees it, so a performer
 * who faces the lens upright has the identity pelvis. Rest pose: upright, arms hanging, palms to the thighs;
 * all joints identity.
 *
 * - `timesS[T]` the container's time of each frame, seconds (slow motion not yet divided out).
 * - `rotations[T·J·4]` unit quaternions w, x, y, z; child segment relative to parent segment; continuous in sign;
 *   NaN where the state is missing. A hinge holds a pure turn about Z.
 * - `rootM[T·3]` path of the mid-hip in the stage frame, metres, about its first found frame; X (depth) is not observable
 *   from one camera at this stage and is 0; Y is height above the lower foot's level.
 * - `confidence[T·J]` 0..1 from the landmarks that the joint was read from; 0 where not observable.
 * - `state[T·J]` one of STATE_*.
 * - `observable[J]` 0 for joints that this footage can never show (they stay at rest): say so wherever they are shown.
 */
export interface Motion {
  readonly timesS: Float64Array;
  readonly rotations: Float64Array;
  readonly rootM: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly observable: Uint8Array;
  /** Cut-off that was really used, Hz of the performer's own time; `null` where the footage is too slow to smooth. */
  readonly usedCutoffHz: number | null;
  readonly warnings: readonly string[];
}
