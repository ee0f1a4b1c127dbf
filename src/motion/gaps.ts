/**
 * What to do where the model saw nothing, or only guessed.
 *
 * Our choices:
 * - A gap is as long as the time between the two good frames around it, in the performer's own time. Up to
 *   {@link BRIDGE_S} it is bridged: the positions are carried across on a smooth curve through those frames, and the
 *   frames between are marked as bridged. 0.25 s is about the time of one small change of direction of an arm or leg;
 *   over longer times what happened between cannot be known.
 * - Longer gaps without a person, and those at the very start or end, stay open: missing, no numbers.
 * - A landmark is hidden in a frame where its visibility is below {@link SEEN}. Hidden for a short time it is bridged
 *   likewise. Hidden for longer, the model's guess is kept, since it knows bodies better than a straight line does; its
 *   low confidence stays, and the joints made of it are marked as bridged, never as measured.
 */
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import { hermite, pchipEndSlope, pchipInnerSlope } from '../numeric/pchip.ts';
import type { StageTrack } from './bodyAxes.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from './motion.ts';

/** Longest time between two good frames that is bridged, seconds of the performer's time. Our choice, see above. */
export const BRIDGE_S = 0.25;

/** Visibility from which a landmark counts as seen; half-way on the model's scale of belief. Our choice. */
export const SEEN = 0.5;

/** Frames `from`..`to` (inclusive) that all have a pose. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * - `positionM`, `image` as in StageTrack, with short gaps filled; NaN in missing frames.
 * - `frameState[T]` STATE_* of the frame as a whole (was a person found?).
 * - `hidden[T·33]` 1 where the landmark was not seen in that frame, bridged or guessed.
 * - `filled[T·33]` 1 where it was bridged: its place is no measurement at all.
 * - `stretches` the unbroken runs of frames that are not missing, in order.
 */
export interface Bridged {
  readonly positionM: Float64Array;
  readonly image: Float64Array;
  readonly frameState: Uint8Array;
  readonly hidden: Uint8Array;
  readonly filled: Uint8Array;
  readonly stretches: readonly Stretch[];
}

/**
 * Fills short gaps (of the landmarks alone; a fitted body has none) and marks all of them.
 *
 * @param performerS T rising times of the performer's own clock, seconds
 */
export function bridgeGaps(stage: StageTrack, performerS: Float64Array): Bridged {
  const frames = performerS.length;
  const positionM = stage.positionM.slice();
  const image = stage.image.slice();
  const frameState = frameStates(stage.found, performerS);
  const hidden = new Uint8Array(frames * LANDMARK_COUNT);
  const filled = new Uint8Array(frames * LANDMARK_COUNT);
  const seen = new Uint8Array(frames);
  for (let l = 0; l < LANDMARK_COUNT; l++) {
    let anyHidden = false;
    for (let t = 0; t < frames; t++) {
      const isSeen = stage.found[t] === 1 && stage.visibility[t * LANDMARK_COUNT + l]! >= SEEN;
      seen[t] = isSeen ? 1 : 0;
      if (isSeen) continue;
      hidden[t * LANDMARK_COUNT + l] = 1;
      anyHidden = true;
    }
    // A fitted body has been carried over all gaps by the fit, with bones that keep their length; it is only marked here.
    if (!anyHidden || stage.rootM !== null) continue;
    // First by what was seen; then whatever is still without a number (nobody found) by all frames with numbers.
    fill(positionM, image, filled, l, seen, performerS);
    fill(positionM, image, filled, l, stage.found, performerS);
  }
  for (let t = 0; t < frames; t++) {
    if (frameState[t] !== STATE_MISSING) continue;
    positionM.fill(Number.NaN, t * LANDMARK_COUNT * 3, (t + 1) * LANDMARK_COUNT * 3);
    image.fill(Number.NaN, t * LANDMARK_COUNT * 2, (t + 1) * LANDMARK_COUNT * 2);
  }
  return { positionM, image, frameState, hidden, filled, stretches: stretchesOf(frameState) };
}

function frameStates(found: Uint8Array, performerS: Float64Array): Uint8Array {
  const states = new Uint8Array(found.length).fill(STATE_MISSING);
  let lastFound = -1;
  for (let t = 0; t < found.length; t++) {
    if (found[t] !== 1) continue;
    states[t] = STATE_MEASURED;
    if (lastFound >= 0 && t > lastFound + 1 && isShort(performerS, lastFound, t)) {
      states.fill(STATE_BRIDGED, lastFound + 1, t);
    }
    lastFound = t;
  }
  return states;
}

/** A hair of tolerance, since container times are rounded to their own ticks. */
function isShort(performerS: Float64Array, before: number, after: number): boolean {
  return performerS[after]! - performerS[before]! <= BRIDGE_S + 1e-6;
}

function stretchesOf(frameState: Uint8Array): Stretch[] {
  const stretches: Stretch[] = [];
  let from = -1;
  for (let t = 0; t <= frameState.length; t++) {
    const inside = t < frameState.length && frameState[t] !== STATE_MISSING;
    if (inside && from < 0) from = t;
    if (!inside && from >= 0) {
      stretches.push({ from, to: t - 1 });
      from = -1;
    }
  }
  return stretches;
}

/** Fills the short gaps of one landmark between frames where `good` is 1. */
function fill(
  positionM: Float64Array, image: Float64Array, filled: Uint8Array, landmark: number, good: Uint8Array, performerS: Float64Array,
): void {
  let a2 = -1;
  let a = -1;
  for (let t = 0; t < good.length; t++) {
    if (good[t] !== 1) continue;
    if (a >= 0 && t > a + 1 && isShort(performerS, a, t)) {
      let b2 = t + 1;
      while (b2 < good.length && good[b2] !== 1) b2++;
      const knots = [
        a2 >= 0 && isShort(performerS, a2, a) ? a2 : -1, a, t, b2 < good.length && isShort(performerS, t, b2) ? b2 : -1,
      ] as const;
      for (let c = 0; c < 3; c++) bridge(positionM, LANDMARK_COUNT * 3, landmark * 3 + c, knots, performerS);
      for (let between = a + 1; between < t; between++) filled[between * LANDMARK_COUNT + landmark] = 1;
      for (let c = 0; c < 2; c++) bridge(image, LANDMARK_COUNT * 2, landmark * 2 + c, knots, performerS);
    }
    a2 = a;
    a = t;
  }
}

/** One coordinate across one gap; knots are the two good frames before and the two behind (-1 where there is none). */
function bridge(
  values: Float64Array, stride: number, offset: number, knots: readonly [number, number, number, number], timesS: Float64Array,
): void {
  const [a2, a, b, b2] = knots;
  const yA = values[a * stride + offset]!;
  const yB = values[b * stride + offset]!;
  const h = timesS[b]! - timesS[a]!;
  const d = (yB - yA) / h;
  const hBefore = a2 < 0 ? 0 : timesS[a]! - timesS[a2]!;
  const hAfter = b2 < 0 ? 0 : timesS[b2]! - timesS[b]!;
  const dBefore = a2 < 0 ? d : (yA - values[a2 * stride + offset]!) / hBefore;
  const dAfter = b2 < 0 ? d : (values[b2 * stride + offset]! - yB) / hAfter;
  const mA = a2 < 0 ? (b2 < 0 ? d : pchipEndSlope(h, hAfter, d, dAfter)) : pchipInnerSlope(hBefore, h, dBefore, d);
  const mB = b2 < 0 ? (a2 < 0 ? d : pchipEndSlope(h, hBefore, d, dBefore)) : pchipInnerSlope(h, hAfter, d, dAfter);
  for (let t = a + 1; t < b; t++) {
    values[t * stride + offset] = hermite(h, (timesS[t]! - timesS[a]!) / h, yA, yB, mA, mB);
  }
}
