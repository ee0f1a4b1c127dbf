/**
 * Why a joint's angle can't be vouched for: bits, words for them, and what would settle the matter.
 *
 * An unsure angle is still the best guess there is; it is kept, marked, and said to be a guess.
 */

/** The limb points at the lens: one camera can't tell how far. */
export const UNSURE_AT_LENS = 1;
/** Something stood in front of it, or it lay outside the picture. */
export const UNSURE_HIDDEN = 2;
/** Carried over frames in which it was not seen. */
export const UNSURE_BRIDGED = 4;
/** The fitted body lies far from the picture, or the frame far from its neighbours. */
export const UNSURE_FAR = 8;
/** Left and right may be mistaken for each other. */
export const UNSURE_SWAPPED = 16;
/** Beyond what the error was calibrated on. */
export const UNSURE_OUTSIDE = 32;
/**
 * Of a puppet's joint that turns about the performer's bone alone: that turn is off by more than {@link TURN_LIMIT_DEG}. Never of a
 * performer's joint, which points where it points however it is turned.
 */
export const UNSURE_TURN = 64;

/** One sigma of a turn about a bone from which it counts as not shown, degrees. Our choice: a third of a right angle can be seen on any puppet. */
export const TURN_LIMIT_DEG = 30;

/** A reason as files carry it, and what a person can do about it. */
export interface UnsureReason {
  readonly bit: number;
  /** One word or two, as plan.json has it. */
  readonly word: string;
  /** Why, as the second half of a sentence that begins with the joint: "the left elbow is unsure: …". */
  readonly because: string;
  /** What would settle it: a whole sentence. */
  readonly settledBy: string;
}

/** In order of weight: the first that applies is the one to tell where there is room for one. */
export const UNSURE_REASONS: readonly UnsureReason[] = [
  {
    bit: UNSURE_SWAPPED, word: 'swapped', because: 'left and right may be mistaken for each other here',
    settledBy: 'Look at the picture and say which side is which over this span.',
  },
  {
    bit: UNSURE_AT_LENS, word: 'at the lens', because: 'the limb points at the lens, and one camera can’t tell how far',
    settledBy: 'Film the move again from the side, add that view, or set the angle by hand.',
  },
  {
    bit: UNSURE_HIDDEN, word: 'hidden', because: 'something hides it, or it is out of the picture',
    settledBy: 'Film it from where it can be seen, or put the joint where it belongs by hand.',
  },
  {
    bit: UNSURE_BRIDGED, word: 'bridged', because: 'nothing was seen in these frames; the pose is carried across',
    settledBy: 'Set a key by hand in the middle of the gap, or film it again.',
  },
  {
    bit: UNSURE_FAR, word: 'far off', because: 'the fitted body lies far from the picture or from the frames beside it',
    settledBy: 'Look at the picture and put the joint where it belongs.',
  },
  {
    bit: UNSURE_TURN, word: 'turn not shown', because: 'the limb is straight, or its turn about its own bone is not shown',
    settledBy: 'Bend the elbow or knee for a moment in the take, add another view, or set a key by hand.',
  },
  {
    bit: UNSURE_OUTSIDE, word: 'untried', because: 'nothing like it was among the clips that the error was measured on',
    settledBy: 'Compare it with the picture; another view or a key set by hand makes it sure.',
  },
];

/** The reasons in a set of bits, in order of weight. */
export function unsureReasons(bits: number): readonly UnsureReason[] {
  return UNSURE_REASONS.filter(({ bit }) => (bits & bit) !== 0);
}

/** The words of a set of bits for files, e.g. `['at the lens', 'hidden']`; empty where the angle is sure. */
export function unsureWords(bits: number): readonly string[] {
  return unsureReasons(bits).map(({ word }) => word);
}
