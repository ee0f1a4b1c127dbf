/**
 * What the default smoothing must keep of a move and take from a hold, on a made-up elbow whose points tremble as measured
 * ones do (scripts/smoothing prints the same figures for all ways of smoothing).
 */
import { describe, expect, it } from 'vitest';
import { SMOOTHERS } from '../../src/motion/smoothing.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { smoothedElbow, TREMBLE_DEG } from '../../scripts/smoothing/elbow.ts';
import { badlySeen, ends, extremeOffFrames, gain, gap, hold, lag } from '../../scripts/smoothing/figures.ts';

const NONE = { smoother: 'butterworth', cutoffHz: 0 } as const;

describe('the default', () => {
  it('keeps 98 % of a move of 2 Hz, and all but a hundredth of a slower one', () => {
    expect(gain(DEFAULT_SETTINGS, 2)).toBeGreaterThan(0.98);
    expect(gain(DEFAULT_SETTINGS, 1)).toBeGreaterThan(0.99);
    expect(gain(DEFAULT_SETTINGS, 0.5)).toBeGreaterThan(0.99);
    // the measure itself
    expect(gain(NONE, 2)).toBeCloseTo(1, 6);
  });

  it('leaves a hold with less than 0.05° of jitter', () => {
    // 20 seeds of 110 frames: known to about 2 %
    expect(hold(NONE).jitterDeg / TREMBLE_DEG).toBeCloseTo(1, 1);
    expect(hold(DEFAULT_SETTINGS).jitterDeg).toBeLessThan(0.05);
  });

  it.each([0.5, 1, 2])('is not late at %d Hz, ±2 to ±20°', (hz) => {
    for (const halfDeg of [2, 5, 20]) {
      const { ms, chanceMs } = lag(DEFAULT_SETTINGS, hz, halfDeg);
      // chance alone stays within three sigmas
      expect(Math.abs(ms)).toBeLessThan(3 * chanceMs + 0.01);
      // clean extremes lie within a quarter of a frame; what is left is the error of the parabola that finds them
      expect(extremeOffFrames(DEFAULT_SETTINGS, hz, halfDeg)).toBeLessThan(0.05);
    }
  });

  it('does not swing at the ends, nor across a gap, and leans on what is seen well', () => {
    expect(ends(DEFAULT_SETTINGS).cutMoveDeg).toBeLessThan(0.2);
    // an end is known from one side only; it must not tremble more than a single frame does
    expect(ends(DEFAULT_SETTINGS).holdDeg).toBeLessThan(TREMBLE_DEG);
    expect(gap(DEFAULT_SETTINGS)).toBeLessThan(0.2);
    expect(badlySeen(DEFAULT_SETTINGS)).toBeLessThan(badlySeen({ ...DEFAULT_SETTINGS, smoother: 'butterworth' }));
  });
});

describe.each(SMOOTHERS)('%s', (smoother) => {
  it('keeps a pose that is held and a move that runs evenly, ends and all', () => {
    for (const cutoffHz of [1.5, 4, 8]) {
      const still = smoothedElbow({ frames: 60, flexionDeg: () => 60 }, { smoother, cutoffHz });
      // rounding, magnified by the stiffness
      still.forEach((v) => expect(Math.abs(v - 60)).toBeLessThan(1e-7));
    }
  });
});
