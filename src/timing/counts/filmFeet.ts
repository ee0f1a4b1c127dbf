/** Film counted in feet and frames. 35 mm with four perforations: 16 frames a foot; 16 mm: 40. */
import type { FilmGauge } from '../timingSettings.ts';

export const FRAMES_PER_FOOT: Readonly<Record<FilmGauge, number>> = { '35 mm': 16, '16 mm': 40 };

export interface FeetAndFrames {
  readonly feet: number;
  readonly frames: number;
}

/** @param frames whole number from 0 */
export function feetOf(frames: number, gauge: FilmGauge): FeetAndFrames {
  const per = FRAMES_PER_FOOT[gauge];
  return { feet: Math.floor(frames / per), frames: frames % per };
}

/** As it is written: `6+04`. */
export function feetWords(frames: number, gauge: FilmGauge): string {
  const { feet, frames: rest } = feetOf(frames, gauge);
  return `${feet}+${String(rest).padStart(2, '0')}`;
}

export function framesOf({ feet, frames }: FeetAndFrames, gauge: FilmGauge): number {
  return feet * FRAMES_PER_FOOT[gauge] + frames;
}
