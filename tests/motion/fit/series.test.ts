import { describe, expect, it } from 'vitest';
import { fillHoles, interpolate, quantile } from '../../../src/motion/fit/series.ts';

describe('series', () => {
  it('interpolates a parabola exactly at uneven knots, ends included', () => {
    const knots = Float64Array.of(0, 0.1, 0.25, 0.3, 0.5);
    const f = (t: number): number => 2 - 3 * t + 5 * t * t;
    const times = Float64Array.from({ length: 51 }, (_, i) => i / 100);
    const out = interpolate(Float64Array.from(knots, f), 1, knots, times);
    for (const [i, t] of times.entries()) expect(out[i]).toBeCloseTo(f(t), 12);
  });

  it('interpolates a line through two knots, and holds one', () => {
    const at = Float64Array.of(0, 0.5, 1);
    expect([...interpolate(Float64Array.of(1, 3), 1, Float64Array.of(0, 1), at)]).toEqual([1, 2, 3]);
    expect([...interpolate(Float64Array.of(7), 1, Float64Array.of(0), Float64Array.of(0))]).toEqual([7]);
  });

  it('fills holes by straight lines in time, and holds the ends', () => {
    const series = Float64Array.of(Number.NaN, 2, Number.NaN, 8, Number.NaN);
    expect(fillHoles(series, 1, Float64Array.of(0, 1, 2, 4, 5))).toBe(true);
    expect([...series]).toEqual([2, 2, 4, 8, 8]);
    expect(fillHoles(Float64Array.of(Number.NaN), 1, Float64Array.of(0))).toBe(false);
  });

  it('takes quantiles of what is known', () => {
    expect(quantile([5, Number.NaN, 1, 3], 0.5)).toBe(3);
    expect(quantile([0, 10], 0.95)).toBeCloseTo(9.5, 12);
    expect(quantile([Number.NaN], 0.5)).toBeNaN();
  });
});
