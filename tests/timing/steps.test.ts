import { describe, expect, it } from 'vitest';
import { layOutSteps, MOST_STEPS, type StepTiming } from '../../src/timing/steps.ts';

const TWOS: StepTiming = { inS: null, outS: null, captureFactor: 1, rate: 24, on: 2, timeScale: 1 };

describe('steps', () => {
  it('start every on/rate seconds of film, exposures counted from 1', () => {
    const s = layOutSteps(TWOS, 0, 0.5);
    expect([...s.exposure]).toEqual([1, 3, 5, 7, 9, 11, 13]);
    expect(s.filmTimeS[6]).toBe(0.5);
    expect(s.sourceTimeS[6]).toBe(0.5);
  });

  it('count the step that falls on the out point, in spite of rounding, and none behind it', () => {
    for (const rate of [12, 23.976, 24, 25, 30, 60]) {
      for (const on of [1, 2, 3, 4]) {
        for (const n of [1, 7, 100, 719]) {
          const out = 0.1 + (n * on) / rate;
          expect(layOutSteps({ ...TWOS, rate, on, inS: 0.1, outS: out }, 0, 1e4).count).toBe(n + 1);
          expect(layOutSteps({ ...TWOS, rate, on, inS: 0.1, outS: out - 1e-3 / rate }, 0, 1e4).count).toBe(n);
        }
      }
    }
  });

  it('never lie behind the last frame', () => {
    const s = layOutSteps({ ...TWOS, rate: 60, on: 1 }, 0.02, 0.02 + 299 / 30);
    expect(s.sourceTimeS[s.count - 1]).toBeLessThanOrEqual(0.02 + 299 / 30);
    expect(s.sourceTimeS[0]).toBe(0.02);
    expect(s.count).toBe(599);
  });

  it('a slower film has more steps over the same moments, a faster one fewer', () => {
    expect(layOutSteps({ ...TWOS, timeScale: 2 }, 0, 10).count).toBe(241);
    expect(layOutSteps({ ...TWOS, timeScale: 0.5 }, 0, 10).count).toBe(61);
    const s = layOutSteps({ ...TWOS, timeScale: 2 }, 0, 10);
    expect(s.filmTimeS[100]).toBeCloseTo(100 / 12, 12);
    expect(s.sourceTimeS[100]).toBeCloseTo(100 / 24, 12);
  });

  it('a clip shot at 240 and stored at 30 runs eight times faster on the film', () => {
    const s = layOutSteps({ ...TWOS, captureFactor: 8, inS: 2 }, 0, 10);
    expect(s.count).toBe(13); // 8 s of container are 1 s of the performer
    expect(s.sourceTimeS[6]).toBeCloseTo(6, 12);
  });

  it('in and out points are drawn in to the take', () => {
    const s = layOutSteps({ ...TWOS, inS: -5, outS: 99 }, 1, 2);
    expect([s.sourceTimeS[0], s.sourceTimeS[12]]).toEqual([1, 2]);
  });

  it('a take of one frame has one step', () => {
    expect([...layOutSteps(TWOS, 3, 3).sourceTimeS]).toEqual([3]);
  });

  it('an empty span is refused, naming both points', () => {
    expect(() => layOutSteps({ ...TWOS, inS: 11 }, 0, 10)).toThrow(/in point 11\.000 s and the out point 10\.000 s.*from 0\.000 s to 10\.000 s/);
    expect(() => layOutSteps({ ...TWOS, inS: 4, outS: 4 }, 0, 10)).toThrow(expect.objectContaining({ code: 'bad-settings' }));
  });

  it('too many steps are refused, naming the number', () => {
    expect(layOutSteps({ ...TWOS, rate: 1, on: 1 }, 0, MOST_STEPS - 1).count).toBe(MOST_STEPS);
    expect(() => layOutSteps({ ...TWOS, rate: 1, on: 1 }, 0, MOST_STEPS)).toThrow(/20001 steps/);
  });
});
