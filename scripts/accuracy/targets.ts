/**
 * What the angles are to reach on the reporting half, and whether they do.
 */
import { HINGES, SHOULDERS_AND_HIPS } from './measures.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { bodyHeightM, trueStanding } from './bodyChecks.ts';
import { rmsOf, tally } from './tally.ts';
import { placeTruth } from './truthBody.ts';
import { figure, percent } from './words.ts';

/** Degrees. Set before anything was measured. */
export const TARGETS = {
  heavy: { movingHinges: 6, stillHinges: 5, ballJoints: 6 },
  full: { movingHinges: 9, stillHinges: 6, ballJoints: 7 },
} as const;
export const UNSURE_AT_MOST = 0.2;
export const STRAIGHT_WITHIN_DEG = 5;

export interface Verdict {
  readonly what: string;
  readonly wanted: string;
  readonly found: string;
  readonly met: boolean;
}

/** A leg counts as a straight standing one where its true knee is within this of straight, degrees. */
const STRAIGHT_BELOW_DEG = 12;

/** Errors of knees, sure or not, of legs that stand straight in truth with the hips above them. */
export function straightLegErrors({ truth, fitted }: MeasuredClip): number[] {
  return fitted.filter(({ measureClass }) => measureClass === 'knee').flatMap(({ joint, trueDeg, errorDeg }) => {
    const stands = trueStanding(truth, joint.startsWith('left') ? 'left' : 'right');
    return errorDeg.filter((error, frame) => {
      if (!Number.isFinite(error) || stands[frame] !== true || trueDeg[frame]! >= STRAIGHT_BELOW_DEG) return false;
      return placeTruth(truth, frame)('pelvis').position[1] > 0.45 * bodyHeightM(truth);
    });
  });
}

/** @param clips of one half, measured with one model */
export function verdicts(clips: readonly MeasuredClip[], model: keyof typeof TARGETS): Verdict[] {
  const series = clips.flatMap(({ fitted }) => fitted);
  const aim = TARGETS[model];
  const hinges = tally(series, HINGES);
  const balls = tally(series, SHOULDERS_AND_HIPS);
  const sureBalls = rmsOf(series.filter(({ measureClass }) => SHOULDERS_AND_HIPS.includes(measureClass))
    .flatMap(({ errorDeg, unsure }) => errorDeg.filter((_, frame) => unsure[frame] !== true)));
  const share = tally(series, [...HINGES, ...SHOULDERS_AND_HIPS]).unsureShare;
  const legs = clips.flatMap(straightLegErrors);
  const within = legs.filter((e) => Math.abs(e) <= STRAIGHT_WITHIN_DEG).length / legs.length;
  const rms = (what: string, found: number, most: number): Verdict =>
    ({ what, wanted: `RMS ≤ ${most}°`, found: `${figure(found)}°`, met: found <= most });
  return [
    rms('elbows and knees that move, not flagged', hinges.moving.rms, aim.movingHinges),
    rms('elbows and knees at rest, not flagged', hinges.still.rms, aim.stillHinges),
    rms('shoulders and hips, not flagged', sureBalls.rms, aim.ballJoints),
    rms('shoulders and hips, flagged or not', balls.all.rms, aim.ballJoints),
    { what: 'flagged values of elbows, knees, shoulders, hips', wanted: `≤ ${percent(UNSURE_AT_MOST)}`, found: percent(share), met: share <= UNSURE_AT_MOST },
    {
      what: 'straight standing legs: knees within 5° of the truth', wanted: '95 % of the frames',
      found: `${percent(within)} (RMS ${figure(rmsOf(legs).rms)}°, bias ${figure(rmsOf(legs).bias)}°)`, met: within >= 0.95,
    },
  ];
}
