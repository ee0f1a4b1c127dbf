/**
 * Left and right mistaken for each other by the model: found, and turned back before the fit.
 *
 * For each pair of landmarks Δ = left - right (across and down in trunk lengths of the picture, depth from the world landmarks). A body's
 * Δ turns by a few degrees from frame to frame, however quickly the body turns round; where left and right are exchanged it turns into
 * its opposite at once. So a step from frame t-1 to t costs -Δ(t)·Δ(t-1) summed over the pairs while the labels stay, the opposite where they
 * change; a change costs {@link CHANGE} besides and every second of being swapped {@link SWAPPED_A_SECOND}. The cheapest of all sequences is found
 * exactly (two states, dynamic programming): first for the trunk, which speaks for the whole body, then for arms and legs alone in what is left.
 *
 * A span is turned back where both its ends say so clearly; one that begins or ends with the take, or where left and right lie together,
 * or that lasts, may be the truth and is left as measured, and said.
 */
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../pose/landmarks.ts';
import type { Track } from '../../pose/track.ts';
import { OPPOSITE_LANDMARK } from '../bodyAxes.ts';
import type { FoundSwap } from '../fit/fittedBody.ts';
import { cheapestPath } from '../fit/viterbi.ts';
import type { SwapPart, SwapWord } from './corrections.ts';
import { framesIn } from './moments.ts';

/** What a change of labels costs, and being swapped (chosen: standing legs, 9 cm apart at knee and ankle, change for 0.13 at an end). */
const CHANGE = 0.1;
const SWAPPED_A_SECOND = 0.06;
/** Least evidence at an end of a span that is turned back, and its longest time, seconds (chosen). */
const CLEAR = 0.05;
const LONGEST_S = 1.5;
/** Frames farther apart say nothing about each other (slow-sampled footage, gaps), seconds (chosen: half a step). */
const APART_S = 0.2;
/** World depth, metres, in trunk lengths (a trunk of half a metre). */
const DEPTH_SCALE = 2;

type Pair = readonly [left: number, right: number];
const pairs = (...names: readonly string[]): Pair[] => names.map((name) => [LANDMARK[`left${name}` as LandmarkName], LANDMARK[`right${name}` as LandmarkName]]);
const ARMS = pairs('Elbow', 'Wrist');
const LEGS = pairs('Knee', 'Ankle');
/** The trunk speaks for the whole body: arms or legs that are exchanged alone would outvote it. */
const PAIRS: Readonly<Record<SwapPart, readonly Pair[]>> = { all: pairs('Shoulder', 'Hip'), arms: ARMS, legs: LEGS };

/** Landmarks that change places with a part. */
const MOVED: Readonly<Record<SwapPart, readonly number[]>> = {
  all: OPPOSITE_LANDMARK.map((_, landmark) => landmark),
  arms: [...ARMS, ...pairs('Pinky', 'Index', 'Thumb')].flat(),
  legs: [...LEGS, ...pairs('Heel', 'FootIndex')].flat(),
};

/** @returns the track with left and right exchanged for a part in the frames `from`..`to`; the given one is not touched */
export function exchange(track: Track, spans: readonly { readonly from: number; readonly to: number; readonly part: SwapPart }[]): Track {
  if (spans.length === 0) return track;
  const out = { ...track, image: track.image.slice(), world: track.world.slice(), visibility: track.visibility.slice() };
  for (const { from, to, part } of spans) {
    for (let t = from; t <= to; t++) {
      const frame = { image: out.image.slice(t * 99, t * 99 + 99), world: out.world.slice(t * 99, t * 99 + 99), visibility: out.visibility.slice(t * 33, t * 33 + 33) };
      for (const landmark of MOVED[part]) {
        const other = OPPOSITE_LANDMARK[landmark]!;
        out.visibility[t * LANDMARK_COUNT + landmark] = frame.visibility[other]!;
        for (const name of ['image', 'world'] as const) out[name].set(frame[name].subarray(other * 3, other * 3 + 3), (t * LANDMARK_COUNT + landmark) * 3);
      }
    }
  }
  return out;
}

export interface Repaired {
  readonly track: Track;
  /** In the track's times, in order. */
  readonly swaps: readonly FoundSwap[];
}

/** Finds swaps, lays a person's word over them, and gives the track with left and right where they belong. */
export function repairSwaps(track: Track, words: readonly SwapWord[]): Repaired {
  const { timesS } = track;
  const said = words.flatMap((word) => {
    const span = framesIn(timesS, word.fromS, word.toS);
    return span === null ? [] : [{ ...word, from: span[0], to: span[1] }];
  });
  let repaired = track;
  const swaps: FoundSwap[] = [];
  const inDoubt = new Uint8Array(timesS.length);
  for (const part of ['all', 'arms', 'legs'] as const) {
    const own = said.filter((word) => word.part === part);
    // Where a person spoke, about this part or all, nothing is looked for.
    const settled = (t: number): boolean => inDoubt[t] === 1 || said.some((word) => (word.part === part || word.part === 'all' || part === 'all') && word.from <= t && t <= word.to);
    for (const { from, to, clear } of find(repaired, PAIRS[part])) {
      const left = runsOf(from, to, (t) => !settled(t));
      // A body in doubt as a whole is not doubted in its parts besides.
      if (part === 'all' && !clear) inDoubt.fill(1, from, to + 1);
      for (const run of left) swaps.push({ fromS: timesS[run.from]!, toS: timesS[run.to]!, part, state: clear ? 'repaired' : 'doubtful' });
      if (clear) repaired = exchange(repaired, left.map((run) => ({ ...run, part })));
    }
    const byHand = own.filter(({ swapped }) => swapped);
    for (const { fromS, toS } of byHand) swaps.push({ fromS, toS, part, state: 'byHand' });
    repaired = exchange(repaired, byHand);
  }
  return { track: repaired, swaps: swaps.sort((a, b) => a.fromS - b.fromS) };
}

interface Run {
  readonly from: number;
  readonly to: number;
}

function runsOf(first: number, last: number, inside: (t: number) => boolean): Run[] {
  const runs: Run[] = [];
  let from = -1;
  for (let t = first; t <= last + 1; t++) {
    const here = t <= last && inside(t);
    if (here && from < 0) from = t;
    if (!here && from >= 0) {
      runs.push({ from, to: t - 1 });
      from = -1;
    }
  }
  return runs;
}

/** Spans over which the labels of these pairs are exchanged, and whether both ends say so clearly. */
function find(track: Track, of: readonly Pair[]): (Run & { readonly clear: boolean })[] {
  const { timesS, found } = track;
  const seen: number[] = [];
  for (let t = 0; t < timesS.length; t++) if (found[t] === 1) seen.push(t);
  if (seen.length < 2) return [];
  // How alike the frame is to the one seen before it: Σ Δ·Δ, negative where it is the opposite.
  const alike = seen.map((t, i) => {
    const before = seen[i - 1];
    if (before === undefined || timesS[t]! - timesS[before]! > APART_S) return 0;
    const size = (trunkPx(track, t) + trunkPx(track, before)) / 2;
    return of.reduce((sum, pair) => {
      const [a, b] = [apart(track, t, pair, size), apart(track, before, pair, size)];
      return sum + a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    }, 0);
  });
  const here = new Float64Array(seen.length * 2);
  seen.forEach((t, i) => { here[i * 2 + 1] = SWAPPED_A_SECOND * Math.min(APART_S, i === 0 ? APART_S : timesS[t]! - timesS[seen[i - 1]!]!); });
  const path = cheapestPath(here, 2, (i, a, b) => (a === b ? -alike[i]! : alike[i]! + CHANGE));
  return runsOf(0, seen.length - 1, (i) => path[i] === 1).map(({ from, to }) => {
    const ends = from > 0 && to < seen.length - 1 && alike[from]! < -CLEAR && alike[to + 1]! < -CLEAR;
    return { from: seen[from]!, to: seen[to]!, clear: ends && timesS[seen[to]!]! - timesS[seen[from]!]! <= LONGEST_S };
  });
}

/** Length of the trunk in the picture, pixels. */
function trunkPx({ image, widthPx, heightPx }: Track, t: number): number {
  const at = (landmark: number, axis: number): number => image[(t * LANDMARK_COUNT + landmark) * 3 + axis]!;
  const middle = (a: number, b: number, axis: number): number => (at(a, axis) + at(b, axis)) / 2;
  const d = [0, 1].map((axis) => middle(LANDMARK.leftShoulder, LANDMARK.rightShoulder, axis) - middle(LANDMARK.leftHip, LANDMARK.rightHip, axis));
  return Math.max(1, Math.hypot(d[0]! * widthPx, d[1]! * heightPx));
}

/** Left minus right of a pair, in trunk lengths. */
function apart({ image, world, widthPx, heightPx }: Track, t: number, [left, right]: Pair, sizePx: number): readonly [number, number, number] {
  const [l, r] = [(t * LANDMARK_COUNT + left) * 3, (t * LANDMARK_COUNT + right) * 3];
  return [
    ((image[l]! - image[r]!) * widthPx) / sizePx, ((image[l + 1]! - image[r + 1]!) * heightPx) / sizePx, (world[l + 2]! - world[r + 2]!) * DEPTH_SCALE,
  ];
}
