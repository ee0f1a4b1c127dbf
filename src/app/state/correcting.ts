/**
 * Correcting the take by hand: which joint is chosen, over which span, and every act. Each act is an edit of the book with
 * its label; the fit follows by itself (`app/fit`).
 */
import { createStore } from 'zustand/vanilla';
import { describeCorrections } from '../../book/describeCorrections.ts';
import type { CorrectableJoint } from '../../motion/corrections/angleMeasures.ts';
import type { Corrections, SwapPart } from '../../motion/corrections/corrections.ts';
import { flipSpan } from '../../motion/corrections/flipSpan.ts';
import type { FoundSwap } from '../../motion/fit/fittedBody.ts';
import { unsureSpans } from '../../motion/trust/unsureSpans.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../pose/landmarks.ts';
import { angleJoint, CORRECTABLE, type Correctable, isPlaceable, limbOf, PLACEABLE } from '../corrections/correctable.ts';
import * as edits from '../corrections/edits.ts';
import { contactSpan } from '../corrections/spans.ts';
import { currentBook, editBook, type EditWords } from './bookStore.ts';
import { playhead, repaintPlayhead, setPlayhead } from './playhead.ts';
import { say, session } from './session.ts';
import { shownTrackFrame } from './shownFrame.ts';

/** What stands beside the picture on the Take screen. */
export type TakeSide = 'take' | 'correct' | 'unsure';

export interface Correcting {
  readonly side: TakeSide;
  readonly chosen: Correctable | null;
  /** A span that a person has said; an end that is `null` is the frame on show. Both `null`: nothing has been said. */
  readonly fromS: number | null;
  readonly toS: number | null;
  readonly swapPart: SwapPart;
}

export const correcting = createStore<Correcting>(() => ({ side: 'take', chosen: null, fromS: null, toS: null, swapPart: 'all' }));

/** Where a joint lies in the picture of a frame, fractions of the upright frame. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly from: 'hand' | 'fit' | 'measured';
}

/** Makes an edit of the corrections; what it did is said for those who don't see it. */
export function editCorrections(change: (corrections: Corrections) => Corrections, words: EditWords = {}): void {
  const before = currentBook().corrections;
  editBook((book) => {
    const corrections = change(book.corrections);
    return describeCorrections(book.corrections, corrections).length === 0 ? book : { ...book, corrections };
  }, words);
  const said = describeCorrections(before, currentBook().corrections);
  if (said.length > 0) say(`${said.join(', ')}.`);
  repaintPlayhead();
}

/** Whether a take with a track lies on the bench. */
export function canCorrect(): boolean {
  return session.getState().screen === 'take' && shownTrackFrame() !== null;
}

export function showSide(side: TakeSide): void {
  correcting.setState({ side });
}

/**
 * Chooses a joint.
 *
 * @param show whether to show what can be done with it as well
 */
export function choose(chosen: Correctable | null, show = true): void {
  correcting.setState(chosen === null || !show ? { chosen } : { chosen, side: 'correct' });
  repaintPlayhead();
}

/** Chooses the next or the former joint. */
export function chooseNext(by: 1 | -1): void {
  const { chosen } = correcting.getState();
  const at = chosen === null ? (by > 0 ? -1 : 0) : CORRECTABLE.indexOf(chosen);
  choose(CORRECTABLE[(at + by + CORRECTABLE.length) % CORRECTABLE.length]!);
}

/** Where a joint is now: put there by hand, fitted, or as it was measured; `null` where nobody was found. */
export function placeOf(name: LandmarkName, frame: number): Place | null {
  const { track, fit } = session.getState();
  if (track === null) return null;
  const timeS = track.timesS[frame] ?? Number.NaN;
  const byHand = currentBook().corrections.placed.find((p) => p.landmark === name && Math.abs(p.timeS - timeS) < edits.SAME_FRAME_S);
  if (byHand !== undefined) return { x: byHand.x, y: byHand.y, from: 'hand' };
  if (fit !== null && fit.track === track) {
    const at = (frame * PLACEABLE.length + PLACEABLE.indexOf(name)) * 2;
    const [x, y] = [fit.body.figureImage[at], fit.body.figureImage[at + 1]];
    if (x !== undefined && y !== undefined && Number.isFinite(x + y)) return { x, y, from: 'fit' };
  }
  if (track.found[frame] !== 1) return null;
  const at = (frame * LANDMARK_COUNT + LANDMARK[name]) * 3;
  return { x: track.image[at]!, y: track.image[at + 1]!, from: 'measured' };
}

/** Puts a joint somewhere in the picture of the frame on show. */
export function placeHere(name: LandmarkName, x: number, y: number): void {
  const here = shownTrackFrame();
  if (here === null) return;
  editCorrections((c) => edits.place(c, here.timeS, name, x, y), { key: `place ${name} ${here.timeS}` });
}

/** Moves the chosen joint by pixels of the frame, to the right and down as it is shown. */
export function nudgeChosen(rightPx: number, downPx: number): void {
  const { chosen } = correcting.getState();
  const here = shownTrackFrame();
  const { track } = session.getState();
  if (chosen === null || !isPlaceable(chosen) || here === null || track === null) return;
  const now = placeOf(chosen, here.frame);
  if (now === null) return;
  const right = currentBook().settings.mirror ? -rightPx : rightPx;
  placeHere(chosen, now.x + right / track.widthPx, now.y + downPx / track.heightPx);
}

/** Types the angle of a joint in the frame on show; `null` takes it back. */
export function typeAngleHere(joint: CorrectableJoint, angleDeg: number | null): void {
  const here = shownTrackFrame();
  if (here === null) return;
  editCorrections((c) => (angleDeg === null ? edits.untypeAngle(c, here.timeS, joint) : edits.typeAngle(c, here.timeS, joint, angleDeg)), { key: `angle ${joint} ${here.timeS}` });
}

/** Takes back what was set for the chosen joint in the frame on show. */
export function takeBackHere(): void {
  const { chosen } = correcting.getState();
  const here = shownTrackFrame();
  if (chosen === null || here === null) return;
  const joint = angleJoint(chosen);
  editCorrections((c) => {
    const placed = isPlaceable(chosen) ? edits.unplace(c, here.timeS, chosen) : c;
    return joint === null ? placed : edits.untypeAngle(placed, here.timeS, joint);
  });
}

/** The span that was said, with the frame on show for an end that was not; `null` where neither was. */
export function saidSpan(): edits.Span | null {
  const { fromS, toS } = correcting.getState();
  const here = shownTrackFrame();
  if ((fromS === null && toS === null) || here === null) return null;
  const [a, b] = [fromS ?? here.timeS, toS ?? here.timeS];
  return { fromS: Math.min(a, b), toS: Math.max(a, b) };
}

/** Says where the span begins or ends: at the frame on show. */
export function markSpan(end: 'fromS' | 'toS'): void {
  const here = shownTrackFrame();
  if (here === null) return;
  correcting.setState({ [end]: here.timeS, side: 'correct' });
  say(`The span ${end === 'fromS' ? 'begins' : 'ends'} at ${here.timeS.toFixed(2)} s.`);
}

export function clearSpan(): void {
  correcting.setState({ fromS: null, toS: null });
}

/** Turns the limb of the chosen joint over in depth. */
export function flipDepthHere(): void {
  const { chosen } = correcting.getState();
  const { fit } = session.getState();
  const here = shownTrackFrame();
  const limb = chosen === null ? null : limbOf(chosen);
  if (here === null) return;
  if (limb === null) {
    say('Choose a joint of an arm or a leg first.');
    correcting.setState({ side: 'correct' });
    return;
  }
  const span = saidSpan() ?? (fit === null ? { fromS: here.timeS, toS: here.timeS } : flipSpan(fit.body, here.frame, limb));
  editCorrections((c) => edits.toggleDepthFlip(c, { ...limb, ...span }, here.timeS));
}

/** Says that a foot stands where it was taken to be free, or the other way round. */
export function turnContactHere(foot: 'left' | 'right'): void {
  const { fit } = session.getState();
  const here = shownTrackFrame();
  if (here === null || fit === null) return;
  const { stands, ...around } = contactSpan(fit.body, here.frame, foot);
  editCorrections((c) => edits.sayContact(c, { foot, ...(saidSpan() ?? around), stands: !stands }));
}

/** Says that left and right were mistaken for each other over the span, or takes that back. */
export function swapHere(): void {
  const here = shownTrackFrame();
  if (here === null) return;
  const { swapPart } = correcting.getState();
  const span = saidSpan() ?? { fromS: here.timeS, toS: here.timeS };
  editCorrections((c) => edits.toggleSwap(c, { ...span, part: swapPart, swapped: true }, here.timeS));
}

/** Says of a swap that was found that it is none; said again, takes that back. */
export function rejectSwap({ fromS, toS, part }: FoundSwap): void {
  editCorrections((c) => edits.toggleSwap(c, { fromS, toS, part, swapped: false }, fromS));
}

/** Goes to the next or the former span in which some joint is unsure. */
export function goToUnsure(by: 1 | -1): void {
  const { plan } = session.getState();
  if (plan === null) return;
  const { step } = playhead.getState();
  const starts = unsureSpans(plan.unsure, plan.joints.length).filter((s) => plan.joints[s.joint]?.observable).map((s) => s.from).sort((a, b) => a - b);
  const next = by > 0 ? starts.find((s) => s > step) : starts.findLast((s) => s < step);
  correcting.setState({ side: 'unsure' });
  if (next === undefined) say(by > 0 ? 'No unsure span begins after this step.' : 'No unsure span begins before this step.');
  else setPlayhead({ step: next, nudge: 0 });
}


