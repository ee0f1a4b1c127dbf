/**
 * What a person knows better than the landmarks: set by hand, kept in the book, never mixed with the track. The fit takes it as
 * strong evidence, so taking a correction back gives exactly the fit that was there before.
 *
 * Times are the container's, seconds, as in the track. Names of sides are those of the footage as it was shot: a take that is
 * shown as in a mirror is mirrored after the fit.
 */
import type { LandmarkName } from '../../pose/landmarks.ts';
import type { LimbName } from '../fit/layout.ts';
import type { CorrectableJoint } from './angleMeasures.ts';

export type SwapPart = 'all' | 'arms' | 'legs';

/** A joint put where it belongs in the picture of one frame; x and y are fractions of the upright frame, y down. */
export interface PlacedJoint {
  readonly timeS: number;
  readonly landmark: LandmarkName;
  readonly x: number;
  readonly y: number;
}

/** An angle typed for one frame; what it measures at each joint: `ANGLE_MEASURES`. */
export interface TypedAngle {
  readonly timeS: number;
  readonly joint: CorrectableJoint;
  readonly angleDeg: number;
}

/** A limb's bones lean toward the lens where they were taken to lean away, and the other way round. */
export interface DepthFlip {
  readonly limb: LimbName;
  readonly bone: 'upper' | 'lower' | 'both';
  readonly fromS: number;
  readonly toS: number;
}

/** The model mistook left and right for each other between these times (true), or a swap that was found is none (false). */
export interface SwapWord {
  readonly fromS: number;
  readonly toS: number;
  readonly part: SwapPart;
  readonly swapped: boolean;
}

export interface ContactWord {
  readonly foot: 'left' | 'right';
  readonly fromS: number;
  readonly toS: number;
  readonly stands: boolean;
}

/** Known poses at the start of a take: look for them; there are none; or here they are (the square elbows may be left out). */
export type SlateWord =
  | { readonly kind: 'find' }
  | { readonly kind: 'none' }
  | {
    readonly kind: 'given';
    readonly straightFromS: number;
    readonly straightToS: number;
    readonly squareFromS: number | null;
    readonly squareToS: number | null;
  };

/** The camera where it is known; `null`: pitch and roll are estimated with the fit, the field of view is guessed. */
export interface CameraWord {
  /** Positive: the lens looks below the horizon. */
  readonly pitchDeg: number | null;
  /** Positive: the camera is turned clockwise, seen from behind it. */
  readonly rollDeg: number | null;
  /** Over the height of the upright frame. */
  readonly verticalFovDeg: number | null;
}

export interface Corrections {
  readonly camera: CameraWord;
  readonly placed: readonly PlacedJoint[];
  readonly angles: readonly TypedAngle[];
  readonly depthFlips: readonly DepthFlip[];
  readonly swaps: readonly SwapWord[];
  readonly contacts: readonly ContactWord[];
  readonly slate: SlateWord;
}

/** Nothing set by hand; a slate pose is looked for. */
export const NO_CORRECTIONS: Corrections = {
  camera: { pitchDeg: null, rollDeg: null, verticalFovDeg: null },
  placed: [],
  angles: [],
  depthFlips: [],
  swaps: [],
  contacts: [],
  slate: { kind: 'find' },
};

/** Ranges of the numbers, inclusive; the file's schema, the fields on the screen and the command line read them here. */
export const CORRECTION_LIMITS = {
  pitchDeg: { min: -89, max: 89 },
  rollDeg: { min: -89, max: 89 },
  verticalFovDeg: { min: 5, max: 150 },
  /** A joint may lie outside the picture, by at most the picture's own size. */
  place: { min: -1, max: 2 },
  timeS: { min: 0, max: 86_400 },
  /** Most entries of each list. */
  count: 2000,
} as const;

/** How many corrections of each kind there are, for labels and files. */
export function countCorrections(corrections: Corrections): Readonly<Record<'camera' | 'placed' | 'angles' | 'depthFlips' | 'swaps' | 'contacts' | 'slate', number>> {
  const { camera, placed, angles, depthFlips, swaps, contacts, slate } = corrections;
  return {
    camera: Object.values(camera).filter((value) => value !== null).length,
    placed: placed.length,
    angles: angles.length,
    depthFlips: depthFlips.length,
    swaps: swaps.length,
    contacts: contacts.length,
    slate: slate.kind === 'find' ? 0 : 1,
  };
}
