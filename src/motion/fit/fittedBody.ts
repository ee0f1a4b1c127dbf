/** The result of the fit, as the rest of motion takes it. */
import type { Corrections, SwapPart } from '../corrections/corrections.ts';
import type { FamilyName } from './residuals/all.ts';

/** Bits of {@link FittedBody.limbFlags}. */
export const FLAG_AT_LENS = 1;
export const FLAG_HIDDEN = 2;
export const FLAG_FAR_FROM_IMAGE = 4;
export const FLAG_NOBODY = 8;
/** A landmark of the limb jumped away from where its neighbours in time put it; it was weighed little. */
export const FLAG_JUMPED = 16;

/**
 * T frames; limbs in the order left arm, right arm, left leg, right leg; feet left, right.
 *
 * Stage axes (right-handed, metres): X toward the camera along the floor, Y up, Z to the left of the picture.
 *
 * - `pointsM[T·33·3]` the 33 landmarks about the fitted mid-hip, in stage axes. Shoulders, elbows, wrists, hips, knees, ankles
 *   hang together with constant lengths; the face is a rigid head laid over the picture; hands and feet are the raw world
 *   offsets (turned by the camera's pitch and roll) set on the fitted wrists and ankles. Where nobody was found: bridged.
 * - `rootM[T·3]` the mid-hip over the floor, in stage axes: X and Z about the first found frame, Y above the floor.
 * - `known[T]` 1 where somebody was found.
 * - `contacts[T·2]` 1 where the foot stands on any part of its sole, heel or toes.
 * - `inPlaneFraction[T·4]` smaller in-plane fraction of the limb's two bones (projected over true length), 0..1, the best of all cameras.
 * - `imageResidualPx[T·4]` mean distance of the limb's two far joints from their landmarks in the first camera; NaN where unseen.
 * - `limbFlags[T·4]` FLAG_* bits.
 * - `figureImage[T·12·2]` where the first camera sees the twelve fitted joints (order of FIGURE_LANDMARKS), fractions of the upright frame.
 *
 * What else predicts the error of a frame, for `errorDeg`:
 * - `boneInPlane[T·8]` projected over true length of each bone (upper and lower of each limb), the best of all cameras.
 * - `toldRad[T·8]` how far off each bone may point as the reader tells of this frame, one sigma, radians; 0 where nothing was read. `apartRad[T·8]` how far that lies from where the fit has the bone.
 * - `bendToldRad[T·4]`, `bendApartRad[T·4]` the same for the bends of left and right elbow, left and right knee.
 * - `depthResidualM[T·4]` mean distance of the limb's bones' measured depth from what the fit expects it to be; NaN where unseen.
 * - `jumpPx[T·4]` how far the limb's landmarks leave the habit of their neighbours in time (the larger of two); NaN where unseen.
 * - `limbVisibility[T·4]` least visibility of the limb's two far joints.
 * - `headResidualPx[T]` root mean square distance of the rigid head's landmarks from the picture's; NaN where nobody was found.
 * - `gapS[T]` time to the nearest frame in which somebody was found; 0 in such a frame.
 * - `facingRad[T]` angle between the body's forward and the line to the first camera: 0 faces it, π seen from behind.
 * - `pxPerM[T]` pixels that a metre covers at the performer's distance, to say pixels in metres.
 */
export interface FittedBody {
  readonly timesS: Float64Array;
  readonly pointsM: Float64Array;
  readonly rootM: Float64Array;
  readonly known: Uint8Array;
  readonly contacts: Uint8Array;
  readonly inPlaneFraction: Float64Array;
  readonly imageResidualPx: Float64Array;
  readonly limbFlags: Uint8Array;
  readonly figureImage: Float32Array;
  readonly boneInPlane: Float64Array;
  readonly toldRad: Float64Array;
  readonly apartRad: Float64Array;
  readonly bendToldRad: Float64Array;
  readonly bendApartRad: Float64Array;
  readonly depthResidualM: Float64Array;
  readonly jumpPx: Float64Array;
  readonly limbVisibility: Float64Array;
  readonly gapS: Float64Array;
  readonly headResidualPx: Float64Array;
  readonly facingRad: Float64Array;
  readonly pxPerM: Float64Array;
  readonly segmentLengthsM: SegmentLengths;
  readonly camera: FittedCamera;
  /** Where left and right were mistaken for each other, in order; container times. */
  readonly swaps: readonly FoundSwap[];
  /** Known poses at the start, where there are any; container times. */
  readonly slate: SlateSpans | null;
  /** What a person had set by hand, as far as this body was fitted to it; left out where nothing was. */
  readonly corrections?: Corrections;
  /** Cost of each family at the end, in squared sigmas weighted by evidence. */
  readonly cost: Readonly<Record<FamilyName, number>>;
  readonly iterations: number;
  /** True where `shouldStop` ended the work early; everything else then holds the state reached. */
  readonly stopped: boolean;
}

/** The camera of the fit, and which of its figures a person gave (else estimated; the focal length: guessed). */
export interface FittedCamera {
  readonly pitchRad: number;
  readonly rollRad: number;
  /** What the fit left open of both, one sigma (cameraSigma.ts). NaN where the fit was stopped. */
  readonly pitchSigmaRad: number;
  readonly rollSigmaRad: number;
  readonly focalPx: number;
  readonly given: { readonly pitch: boolean; readonly roll: boolean; readonly fov: boolean };
}

/** A span in which the model mistook left and right. Frames from `fromS` to `toS`, both included. */
export interface FoundSwap {
  readonly fromS: number;
  readonly toS: number;
  readonly part: SwapPart;
  /** `repaired`: turned back before the fit. `doubtful`: left as measured and flagged. `byHand`: a person said so, turned back. */
  readonly state: 'repaired' | 'doubtful' | 'byHand';
}

export interface SlateSpans {
  readonly straightFromS: number;
  readonly straightToS: number;
  readonly squareFromS: number | null;
  readonly squareToS: number | null;
  /** Said by a person, not found. */
  readonly given: boolean;
}

export interface SegmentLengths {
  readonly upperArm: number;
  readonly forearm: number;
  readonly thigh: number;
  readonly shank: number;
  readonly hipHalfWidth: number;
  readonly spine: number;
  readonly shoulderHalfWidth: number;
}
