/** Taps are counted at the moment of the press, with a plan or without. */
import { afterEach, describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/plan.ts';
import { setRun } from '../../src/app/play/running.ts';
import { beginTaps, clearTaps, takeBackTap, tap, taps } from '../../src/app/play/stopwatch.ts';
import { setPlayhead } from '../../src/app/state/playhead.ts';
import { session } from '../../src/app/state/session.ts';

/** What of a plan the stopwatch looks at: twos at 24. */
const plan = { stepCount: 40, rate: 24, filmTimeS: Float64Array.from({ length: 40 }, (_, s) => s / 12) } as unknown as Plan;

afterEach(() => {
  clearTaps();
  setRun(null);
  session.setState({ plan: null });
  setPlayhead({ step: 0, nudge: 0 });
});

describe('the stopwatch', () => {
  it('without a plan counts from the first tap', () => {
    for (const atMs of [5000, 5500, 6250]) tap(atMs);
    expect(taps.getState()).toMatchObject({ tapsS: [0, 0.5, 1.25], onFilm: false });
  });

  it('with a plan that stands still counts from the playhead’s step', () => {
    session.setState({ plan });
    setPlayhead({ step: 12, nudge: 0 });
    for (const atMs of [100, 600]) tap(atMs);
    expect(taps.getState()).toMatchObject({ tapsS: [1, 1.5], onFilm: true });
    // after playing has stopped, from where the playhead is then
    beginTaps();
    setPlayhead({ step: 24, nudge: 0 });
    tap(9000);
    expect(taps.getState().tapsS).toEqual([1, 1.5, 2]);
  });

  it('while it plays counts at what is shown at the press, however late the page hears of it: at half speed, backwards', () => {
    session.setState({ plan });
    const playing = { fromExposure: 0, toExposure: 80, startExposure: 80, rate: 24, speed: 0.5, backwards: true, looped: false } as const;
    setRun({ plan, playing, startMs: 1000 });
    tap(2000);
    // 12 exposures back from the end of the 80th
    expect(taps.getState().tapsS[0]).toBeCloseTo(68 / 24, 9);
  });

  it('the last tap is taken back; a plan that comes makes a new list', () => {
    for (const atMs of [0, 400]) tap(atMs);
    takeBackTap();
    expect(taps.getState().tapsS).toEqual([0]);
    takeBackTap();
    tap(900);
    expect(taps.getState().tapsS).toEqual([0]);
    session.setState({ plan });
    tap(1000);
    expect(taps.getState().onFilm).toBe(true);
    expect(taps.getState().tapsS).toHaveLength(1);
  });
});
