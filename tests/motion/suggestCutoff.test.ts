import { describe, expect, it } from 'vitest';
import { prepareTrack } from '../../src/motion/prepareTrack.ts';
import { LEAST_HZ, MOST_HZ, suggestCutoff, type CutoffSuggestion } from '../../src/motion/suggestCutoff.ts';
import { evenTimes, trackOf, turnX, type FigurePose } from './figure.ts';

/** The left arm swings, everything else rests. */
function suggestion(swingHz: number, noiseM: number, fps = 30, frames = 240): CutoffSuggestion {
  const times = evenTimes(frames, fps);
  const poses = [...times].map((t): FigurePose => ({
    leftShoulder: turnX(-0.8 + 0.6 * Math.sin(2 * Math.PI * swingHz * t)), leftElbow: 0.6, rightElbow: 0.6, leftKnee: 0.2, rightKnee: 0.2,
  }));
  return suggestCutoff(prepareTrack(trackOf(poses, times, { noiseM, seed: 4 }), 1, false, null));
}

describe('the cut-off that footage suggests', () => {
  it('rises with how quickly the quickest part moves', () => {
    const slow = suggestion(0.5, 0.003);
    const quick = suggestion(2, 0.003);
    expect(quick.cutoffHz!).toBeGreaterThan(slow.cutoffHz!);
    expect(quick.groups.arms!).toBeGreaterThan(quick.groups.legs!);
    // it keeps the move: a swing of 2 Hz needs a cut-off above it
    expect(quick.cutoffHz!).toBeGreaterThan(2);
  });

  it('falls with the noise', () => {
    expect(suggestion(2, 0.02).groups.arms!).toBeLessThan(suggestion(2, 0.001).groups.arms!);
  });

  it('stays within its range, whatever the footage', () => {
    for (const [hz, noise] of [[0.2, 0.05], [6, 0.0001], [1, 0]] as const) {
      const { cutoffHz } = suggestion(hz, noise);
      expect(cutoffHz!).toBeGreaterThanOrEqual(LEAST_HZ);
      expect(cutoffHz!).toBeLessThanOrEqual(MOST_HZ);
    }
  });

  it('says why there is none', () => {
    expect(suggestion(1, 0.003, 5, 100)).toMatchObject({ cutoffHz: null, why: expect.stringContaining('5.0 frames a second') as string });
    expect(suggestion(1, 0.003, 30, 20)).toMatchObject({ cutoffHz: null, why: expect.stringContaining('20 frames') as string });
  });
});
