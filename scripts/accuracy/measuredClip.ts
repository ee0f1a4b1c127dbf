/**
 * One clip measured as everybody gets it: track, fitted body, motions, and their errors.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import type { Motion } from '../../src/motion/motion.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { Track } from '../../src/pose/track.ts';
import type { ClipSet } from '../clips/clip.ts';
import { bodyChecks, type BodyChecks } from './bodyChecks.ts';
import type { ClipFile } from './clipFiles.ts';
import { requireSameFrames } from './compareClip.ts';
import { errorSeries, type ErrorSeries } from './errorSeries.ts';
import { readTruth, type Truth } from './truthFile.ts';

export interface MeasuredClip {
  readonly name: string;
  readonly set: ClipSet;
  readonly truth: Truth;
  readonly track: Track;
  /** With the default settings: read from the fitted body, and from the landmarks alone. */
  readonly fittedMotion: Motion;
  readonly rawMotion: Motion;
  readonly fitted: readonly ErrorSeries[];
  readonly raw: readonly ErrorSeries[];
  readonly checks: BodyChecks;
}

/** @throws Error where truth and track do not have the same frames */
export function measureClip({ name, set, truth: path }: ClipFile, track: Track): MeasuredClip {
  const truth = readTruth(path);
  requireSameFrames(truth, track);
  const body = fitTake(track, DEFAULT_SETTINGS.captureFactor);
  const fittedMotion = trackToMotion(track, DEFAULT_SETTINGS, body);
  const rawMotion = trackToMotion(track, DEFAULT_SETTINGS, null);
  return {
    name, set, truth, track, fittedMotion, rawMotion,
    fitted: errorSeries(truth, fittedMotion), raw: errorSeries(truth, rawMotion), checks: bodyChecks(truth, body),
  };
}
