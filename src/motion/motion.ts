/**
 * The motion: the performer's joint rotations over source time. Pure data, made by `motion/trackToMotion.ts`.
 */

/** Where a number comes from: measured in that frame, bridged over a short gap, or not known at all. */
export const STATE_MEASURED = 0;
export const STATE_BRIDGED = 1;
export const STATE_MISSING = 2;

/** A limb that points at the lens can't be known from one camera, however well it is seen. Below 0.5, from which screens show a value as sure. */
export const AT_LENS_CONFIDENCE = 0.4;

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
 * - `rootM[T·3]` path of the mid-hip in the stage frame, metres, X and Z about its first found frame, Y above the floor (fitted) or
 *   above the lower sole (landmarks alone; X, the depth, is then not observable and 0).
 * - `confidence[T·J]` 0..1 from the landmarks that the joint was read from; 0 where not observable; at most AT_LENS_CONFIDENCE
 *   for the joints of a limb that points at the lens.
 * - `state[T·J]` one of STATE_*.
 * - `errorDeg[T·J]` one sigma of the joint's angle, degrees: about two in three true angles lie within it (docs/errors.md says of
 *   which angle for each joint); NaN where missing or not observable.
 * - `turnErrorDeg[T·J]` one sigma of the turn about the joint's own bone, degrees, which errorDeg does not speak of; NaN where missing
 *   and for joints without such a turn: only shoulders, hips, wrists and ankles have one (`trust/errorClasses.ts`).
 * - `unsure[T·J]` UNSURE_* bits of `trust/unsure.ts`: why one camera can't know it; 0 where nothing speaks against it.
 * - `contacts[T·2]` 1 where the left, the right foot stands on the floor, as the fit found it or a person said; 0 without a fit.
 * - `observable[J]` 0 for joints that this footage can never show (they stay at rest): say so wherever they are shown.
 */
export interface Motion {
  readonly timesS: Float64Array;
  readonly rotations: Float64Array;
  readonly rootM: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
  readonly contacts: Uint8Array;
  readonly observable: Uint8Array;
  /** Height of the performer's hips when both legs are straight, metres (`legLength.ts`): what the puppet's path is scaled by. */
  readonly legLengthM: number;
  /** Read from a body fitted to the whole take, rather than from the landmarks of each frame alone. */
  readonly fitted: boolean;
  /** Cut-off that was really used, Hz of the performer's own time; `null` where the footage is too slow to smooth. */
  readonly usedCutoffHz: number | null;
  readonly warnings: readonly string[];
}
