import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RateVerdict } from '../../src/footage/facts.ts';
import { describeRate, rateVerdict } from '../../src/footage/rateVerdict.ts';

/** Timestamps of a constant rate, each rounded to a tick as containers do. */
function constant(fps: number, frames: number, tickHz?: number, startS = 0): number[] {
  return Array.from({ length: frames }, (_, i) => {
    const t = startS + i / fps;
    return tickHz === undefined ? t : Math.round(t * tickHz) / tickHz;
  });
}

const NTSC_24 = 24000 / 1001;
const NTSC_30 = 30000 / 1001;
const NTSC_60 = 60000 / 1001;

function fpsOf(verdict: RateVerdict): number {
  if (verdict.kind !== 'constant') throw new Error(`expected a constant rate, got ${JSON.stringify(verdict)}`);
  return verdict.fps;
}

describe('a constant rate', () => {
  it.each([12, 15, NTSC_24, 24, 25, NTSC_30, 30, 48, 50, NTSC_60, 60, 120, 240])('of %f is read exactly, whatever the tick', (fps) => {
    for (const tickHz of [undefined, 90_000, 1_000_000]) {
      expect(fpsOf(rateVerdict(constant(fps, 200, tickHz)))).toBe(fps);
    }
  });

  // Milliseconds are WebM's default tick, 1/600 s is QuickTime's.
  it.each([
    [1000, NTSC_24], [1000, 24], [1000, 25], [1000, NTSC_30], [1000, 30], [1000, NTSC_60], [1000, 60], [1000, 120],
    [600, NTSC_24], [600, 24], [600, 25], [600, NTSC_30], [600, 30], [600, 60],
  ])('rounded to 1/%d s is told apart from its neighbours: %f', (tickHz, fps) => {
    expect(fpsOf(rateVerdict(constant(fps, 300, tickHz)))).toBe(fps);
  });

  it('is told apart in milliseconds already after two seconds', () => {
    expect(fpsOf(rateVerdict(constant(NTSC_30, 60, 1000)))).toBe(NTSC_30);
    expect(fpsOf(rateVerdict(constant(30, 60, 1000)))).toBe(30);
  });

  it('may start anywhere, also at a time so large that doubles get coarse', () => {
    expect(fpsOf(rateVerdict(constant(NTSC_30, 300, 90_000, 1_700_000_000)))).toBe(NTSC_30);
    expect(fpsOf(rateVerdict(constant(25, 300, 1000, 86_400)))).toBe(25);
  });

  it('keeps a rate that is no standard', () => {
    expect(fpsOf(rateVerdict(constant(29.5, 300)))).toBeCloseTo(29.5, 6);
    expect(fpsOf(rateVerdict(constant(29.9, 5)))).toBeCloseTo(29.9, 6);
  });

  it('survives a rare dropped frame, in fine and in rounded ticks', () => {
    for (const tickHz of [90_000, 1000]) {
      const times = constant(NTSC_30, 300, tickHz).filter((_, i) => i !== 40 && i !== 41 && i !== 200);
      expect(fpsOf(rateVerdict(times))).toBe(NTSC_30);
    }
  });

  it('is found for any standard rate, length and start (property)', () => {
    fc.assert(fc.property(
      fc.constantFrom(NTSC_24, 24, 25, NTSC_30, 30, 48, 50, NTSC_60, 60, 120),
      fc.integer({ min: 100, max: 900 }),
      fc.integer({ min: 0, max: 100_000 }),
      (fps, frames, startMs) => fpsOf(rateVerdict(constant(fps, frames, 1000, startMs / 1000))) === fps,
    ), { seed: 20, numRuns: 200 });
  });
});

describe('a variable rate', () => {
  it('is said with its limits', () => {
    // A phone in dimming light: 30 frames a second that stretch to 21.
    const times = [0];
    for (let i = 0; i < 120; i++) times.push((times.at(-1) ?? 0) + 1 / (30 - 9 * Math.min(1, i / 60)));
    const verdict = rateVerdict(times);
    expect(verdict).toMatchObject({ kind: 'variable', minFps: expect.closeTo(21, 6) as number, maxFps: expect.closeTo(30, 6) as number });
    expect(describeRate(verdict)).toBe('variable 21 to 30');
  });

  it('is not covered up by a jitter larger than rounding', () => {
    const times = constant(30, 120).map((t, i) => t + (i % 2 === 0 ? 0 : 0.003));
    expect(rateVerdict(times).kind).toBe('variable');
  });

  it('is not taken for a fast rate with many dropped frames', () => {
    // All on a grid of 1/120 s, but with steps of 4, 5 and 6.
    const times = [0];
    for (let i = 0; i < 100; i++) times.push((times.at(-1) ?? 0) + (4 + (i % 3)) / 120);
    expect(rateVerdict(times).kind).toBe('variable');
  });

  it('is found where every tenth frame is missing', () => {
    expect(rateVerdict(constant(30, 300).filter((_, i) => i % 10 !== 5)).kind).toBe('variable');
  });
});

describe('too few frames', () => {
  it.each([[[]], [[0]], [[0, 1 / 30]]])('%j: not known', (times) => {
    expect(rateVerdict(times)).toEqual({ kind: 'unknown' });
  });
});

describe('words', () => {
  it.each<[RateVerdict, string]>([
    [{ kind: 'constant', fps: NTSC_30 }, '29.97 constant'],
    [{ kind: 'constant', fps: NTSC_24 }, '23.976 constant'],
    [{ kind: 'constant', fps: 25 }, '25 constant'],
    [{ kind: 'variable', minFps: 21.02, medianFps: 29.9, maxFps: 30.2 }, 'variable 21 to 30'],
    [{ kind: 'variable', minFps: 0.52, medianFps: 29.9, maxFps: 30.2 }, 'variable 0.5 to 30'],
    [{ kind: 'variable', minFps: 29.8, medianFps: 30, maxFps: 30.3 }, 'variable about 30'],
    [{ kind: 'unknown' }, 'not known'],
  ])('%j', (verdict, words) => {
    expect(describeRate(verdict)).toBe(words);
  });
});
