/**
 * Poses along a row of moments: what a motion is at its frames, and what sampling makes of it at the steps.
 */

/**
 * N moments, J = JOINT_COUNT joints of the performer; shapes, axes and states as in Motion (a Motion is a Poses).
 *
 * - `timesS[N]` container seconds.
 * - `rotations[N·J·4]`, `rootM[N·3]`: NaN where missing.
 * - `contacts[N·2]` 1 where the left, the right foot stands.
 * - `confidence[N·J]`, `state[N·J]`, `errorDeg[N·J]` (NaN where missing or not observable), `turnErrorDeg[N·J]`
 *   (NaN also of joints without such a turn), `unsure[N·J]`.
 */
export interface Poses {
  readonly timesS: Float64Array;
  readonly rotations: Float64Array;
  readonly rootM: Float64Array;
  readonly contacts: Uint8Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
}
