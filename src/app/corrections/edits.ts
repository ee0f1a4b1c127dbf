/**
 * What each act of correcting does to the corrections, as plain functions. Times are exact frame times of the track; two
 * within {@link SAME_FRAME_S} mean the same frame.
 */
import { type CameraWord, type ContactWord, CORRECTION_LIMITS, type Corrections, type DepthFlip, type SlateWord, type SwapWord } from '../../motion/corrections/corrections.ts';
import type { CorrectableJoint } from '../../motion/corrections/angleMeasures.ts';
import type { LandmarkName } from '../../pose/landmarks.ts';

/** Two timestamps of one frame differ by rounding only. */
export const SAME_FRAME_S = 0.002;

export interface Span {
  readonly fromS: number;
  readonly toS: number;
}

const sameFrame = (a: number, b: number): boolean => Math.abs(a - b) < SAME_FRAME_S;
const byTime = (a: { readonly timeS: number }, b: { readonly timeS: number }): number => a.timeS - b.timeS;
const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

const held = (share: number): number => Math.max(CORRECTION_LIMITS.place.min, Math.min(CORRECTION_LIMITS.place.max, share));

/** Puts a joint somewhere in the picture of one frame; fractions of the upright frame, held within what a book takes. */
export function place(c: Corrections, timeS: number, landmark: LandmarkName, x: number, y: number): Corrections {
  const entry = { timeS, landmark, x: rounded(held(x), 5), y: rounded(held(y), 5) };
  return { ...unplace(c, timeS, landmark), placed: [...unplace(c, timeS, landmark).placed, entry].sort(byTime) };
}

export function unplace(c: Corrections, timeS: number, landmark: LandmarkName): Corrections {
  return { ...c, placed: c.placed.filter((p) => p.landmark !== landmark || !sameFrame(p.timeS, timeS)) };
}

export function typeAngle(c: Corrections, timeS: number, joint: CorrectableJoint, angleDeg: number): Corrections {
  return { ...c, angles: [...untypeAngle(c, timeS, joint).angles, { timeS, joint, angleDeg }].sort(byTime) };
}

export function untypeAngle(c: Corrections, timeS: number, joint: CorrectableJoint): Corrections {
  return { ...c, angles: c.angles.filter((a) => a.joint !== joint || !sameFrame(a.timeS, timeS)) };
}

const covers = (span: Span, timeS: number): boolean => span.fromS <= timeS + SAME_FRAME_S && timeS <= span.toS + SAME_FRAME_S;

/**
 * Turns a bone or a limb over in depth between two times; where the very same is turned at `atS` already, takes that back.
 */
export function toggleDepthFlip(c: Corrections, flip: DepthFlip, atS: number): Corrections {
  const known = c.depthFlips.find((f) => f.limb === flip.limb && f.bone === flip.bone && covers(f, atS));
  const depthFlips = known === undefined ? [...c.depthFlips, flip] : c.depthFlips.filter((f) => f !== known);
  return { ...c, depthFlips };
}

/** Says that left and right are swapped between two times, or that a found swap is none; said again, takes it back. */
export function toggleSwap(c: Corrections, word: SwapWord, atS: number): Corrections {
  const known = c.swaps.find((s) => s.part === word.part && s.swapped === word.swapped && covers(s, atS));
  return { ...c, swaps: known === undefined ? [...c.swaps, word] : c.swaps.filter((s) => s !== known) };
}

/**
 * Says whether a foot stands between two times. What was said before of the same foot is cut back to what lies outside.
 */
export function sayContact(c: Corrections, word: ContactWord): Corrections {
  const others = c.contacts.flatMap((former): readonly ContactWord[] => {
    if (former.foot !== word.foot || former.toS < word.fromS - SAME_FRAME_S || former.fromS > word.toS + SAME_FRAME_S) return [former];
    const before = { ...former, toS: word.fromS - SAME_FRAME_S };
    const after = { ...former, fromS: word.toS + SAME_FRAME_S };
    return [before, after].filter(({ fromS, toS }) => toS > fromS);
  });
  return { ...c, contacts: [...others, word].sort((a, b) => a.fromS - b.fromS) };
}

export function setCamera(c: Corrections, some: Partial<CameraWord>): Corrections {
  return { ...c, camera: { ...c.camera, ...some } };
}

export function setSlate(c: Corrections, slate: SlateWord): Corrections {
  return { ...c, slate };
}
