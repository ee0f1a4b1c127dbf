/**
 * Which cut-off the footage itself suggests: residual analysis (`numeric/residualAnalysis.ts`) of the landmarks' paths, group
 * by group, and of these the highest: what moves most quickly must not be smoothed away, and a group that trembles or rests
 * asks for less, never for more.
 *
 * The method tends to smooth too much where movement and noise overlap (Yu, Gabriel, Noble & An 1999, J. Appl. Biomech.
 * 15:318-329; from memory), so the proposal never lies below {@link LEAST_HZ}. It is offered, never taken by itself.
 */
import { butterworthPass } from './butterworthPass.ts';
import { layOutGrid } from './evenGrid.ts';
import type { Stretch } from './gaps.ts';
import type { PreparedTrack } from './prepareTrack.ts';
import { cutoffAtResidual, residualLine } from '../numeric/residualAnalysis.ts';
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';

export const CUTOFF_GROUPS = {
  arms: [LANDMARK.leftElbow, LANDMARK.rightElbow, LANDMARK.leftWrist, LANDMARK.rightWrist],
  legs: [LANDMARK.leftKnee, LANDMARK.rightKnee, LANDMARK.leftAnkle, LANDMARK.rightAnkle],
  trunk: [LANDMARK.leftShoulder, LANDMARK.rightShoulder],
  head: [LANDMARK.nose, LANDMARK.leftEar, LANDMARK.rightEar],
} as const;
export type CutoffGroup = keyof typeof CUTOFF_GROUPS;

/** Range of what is proposed, Hz of the performer's time. Our choice: below, a quick gesture goes; above, little is smoothed. */
export const LEAST_HZ = 3;
export const MOST_HZ = 8;

/** Frames a second and frames in a row below which noise and movement can't be told apart. Our choice. */
const LEAST_RATE_HZ = 15;
const LEAST_FRAMES = 45;
/** Frames of the longest stretch that are looked at: a minute at 30 a second says all there is to say. */
const MOST_FRAMES = 1800;

const STEP_HZ = 0.5;
/** Highest cut-off tried, as a part of the frame rate and in Hz; the line is laid through the upper part of the range. */
const TOP_OF_RATE = 0.4;
const TOP_HZ = 15;
const LINE_FROM = 0.6;

export interface CutoffSuggestion {
  /** Hz of the performer's time, one decimal; `null` where the footage can't tell. */
  readonly cutoffHz: number | null;
  /** What each group asks for before the range is applied, Hz; `null` where it can't tell. */
  readonly groups: Readonly<Record<CutoffGroup, number | null>>;
  /** Why there is none, as a sentence; empty where there is one. */
  readonly why: string;
}

/** @param prepared the take as smoothing gets it: the fitted body where there is one */
export function suggestCutoff(prepared: PreparedTrack): CutoffSuggestion {
  const stretch = longest(prepared.bridged.stretches);
  const from = stretch?.from ?? 0;
  const to = Math.min(stretch?.to ?? -1, from + MOST_FRAMES - 1);
  const frames = to - from + 1;
  const none = { arms: null, legs: null, trunk: null, head: null };
  if (frames < LEAST_FRAMES) {
    return { cutoffHz: null, groups: none, why: `The longest unbroken stretch has ${frames} frames; ${LEAST_FRAMES} are needed to tell noise from movement.` };
  }
  const frameS = prepared.performerS.subarray(from, to + 1);
  const grid = layOutGrid(frameS);
  if (grid.sampleHz < LEAST_RATE_HZ) {
    return {
      cutoffHz: null, groups: none,
      why: `With ${grid.sampleHz.toFixed(1)} frames a second noise can’t be told from movement; ${LEAST_RATE_HZ} are needed.`,
    };
  }
  const topHz = Math.min(TOP_HZ, TOP_OF_RATE * grid.sampleHz);
  const cutoffs = Array.from({ length: Math.floor((topHz - 1) / STEP_HZ) + 1 }, (_, k) => 1 + k * STEP_HZ);
  const passes = cutoffs.map((hz) => butterworthPass(frameS, grid, hz));
  const groups = Object.fromEntries((Object.keys(CUTOFF_GROUPS) as CutoffGroup[]).map((name) => {
    const residuals = groupResiduals(prepared, from, frames, CUTOFF_GROUPS[name], passes);
    if (residuals === null) return [name, null];
    const { intercept } = residualLine(cutoffs, residuals, LINE_FROM * topHz, topHz);
    return [name, cutoffAtResidual(cutoffs, residuals, intercept)];
  })) as Record<CutoffGroup, number | null>;
  const asked = Object.values(groups).filter((hz) => hz !== null);
  if (asked.length === 0) return { cutoffHz: null, groups, why: 'No group of landmarks is seen well enough to tell noise from movement.' };
  const highest = Math.max(...asked);
  return { cutoffHz: Math.round(Math.min(MOST_HZ, Math.max(LEAST_HZ, highest)) * 10) / 10, groups, why: '' };
}

function longest(stretches: readonly Stretch[]): Stretch | undefined {
  return stretches.reduce<Stretch | undefined>((best, s) => (best === undefined || s.to - s.from > best.to - best.from ? s : best), undefined);
}

/** RMS residual at each cut-off over the coordinates of those landmarks that are seen in most frames; `null` where none is. */
function groupResiduals(
  { bridged }: PreparedTrack, from: number, frames: number, landmarks: readonly number[], passes: readonly ReturnType<typeof butterworthPass>[],
): number[] | null {
  const squares = passes.map(() => 0);
  let count = 0;
  const own = new Float64Array(frames);
  const smooth = new Float64Array(frames);
  for (const landmark of landmarks) {
    let hidden = 0;
    for (let k = 0; k < frames; k++) hidden += bridged.hidden[(from + k) * LANDMARK_COUNT + landmark]!;
    if (hidden > frames / 2) continue;
    for (let c = 0; c < 3; c++) {
      for (let k = 0; k < frames; k++) own[k] = bridged.positionM[((from + k) * LANDMARK_COUNT + landmark) * 3 + c]!;
      passes.forEach((pass, p) => {
        smooth.set(own);
        pass(smooth, 0, 1, 1, null);
        for (let k = 0; k < frames; k++) squares[p]! += (smooth[k]! - own[k]!) ** 2;
      });
      count += frames;
    }
  }
  return count === 0 ? null : squares.map((sum) => Math.sqrt(sum / count));
}
