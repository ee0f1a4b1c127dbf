/** Cubic splines, the minimum-jerk move, angular velocity. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angularVelocities } from '../../src/numeric/angularVelocity.ts';
import { AT_REST, cubicSpline, NATURAL, splineSlopes } from '../../src/numeric/cubicSpline.ts';
import { minimumJerk, minimumJerkSpeed, MINIMUM_JERK_PEAK } from '../../src/numeric/minimumJerk.ts';
import { fromAxisAngle, multiply, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import type { QuatRun } from '../../src/numeric/quaternionSeries.ts';
import { anyQuat, anyUnitVector, SEEDED } from './arbitrary.ts';
import cubic from './data/cubic.json' with { type: 'json' };
import jerk from './data/minimumJerk.json' with { type: 'json' };

const value = fc.double({ min: -5, max: 5, noNaN: true });

describe('cubic spline', () => {
  it.each(cubic.cases)('equals scipy on $name', ({ x, y, at, natural, clamped }) => {
    // the second set has knots 0.1 and 5 apart, which costs two digits
    cubicSpline(x, y, at, NATURAL).forEach((v, k) => expect(Math.abs(v - natural[k]!)).toBeLessThan(1e-12));
    cubicSpline(x, y, at, AT_REST).forEach((v, k) => expect(Math.abs(v - clamped[k]!)).toBeLessThan(1e-12));
  });

  it('clamped to its own slopes gives a cubic back, and both kinds give a line back', () => {
    fc.assert(fc.property(value, value, value, value, (a, b, c, d) => {
      const x = [0, 0.3, 1, 1.4, 2.5];
      const at = [0.1, 0.5, 1.3, 2.2];
      const f = (t: number): number => a + b * t + c * t * t + d * t ** 3;
      const slope = (t: number): number => b + 2 * c * t + 3 * d * t * t;
      const own = { kind: 'clamped', firstSlope: slope(0), lastSlope: slope(2.5) } as const;
      cubicSpline(x, x.map(f), at, own).forEach((v, k) => expect(Math.abs(v - f(at[k]!))).toBeLessThan(1e-11));
      cubicSpline(x, x.map((t) => a + b * t), at, NATURAL).forEach((v, k) => expect(Math.abs(v - a - b * at[k]!)).toBeLessThan(1e-12));
    }), SEEDED);
  });

  it('two knots make the line, or the ease from rest to rest; beyond the ends the end is held', () => {
    expect([...splineSlopes([0, 2], [1, 5], NATURAL)]).toEqual([2, 2]);
    expect([...cubicSpline([0, 2], [1, 5], [-1, 1, 3], AT_REST)]).toEqual([1, 3, 5]);
  });
});

describe('minimum jerk, against Flash & Hogan 1985', () => {
  it('position and speed', () => {
    jerk.tau.forEach((u, k) => {
      // the table carries 15 digits
      expect(Math.abs(minimumJerk(u) - jerk.position[k]!)).toBeLessThan(2e-14);
      expect(Math.abs(minimumJerkSpeed(u) - jerk.velocity[k]!)).toBeLessThan(2e-14);
    });
    expect(minimumJerkSpeed(0.5)).toBe(MINIMUM_JERK_PEAK);
    expect(MINIMUM_JERK_PEAK).toBe(jerk.peak_speed_over_mean);
    expect([minimumJerk(-1), minimumJerk(2), minimumJerkSpeed(-1), minimumJerkSpeed(2)]).toEqual([0, 1, 0, 0]);
  });
});

function runOf(quats: readonly Quat[], timesS: readonly number[]): QuatRun {
  const values = new Float64Array(quats.length * 4);
  quats.forEach((q, k) => writeQuat(values, k, q));
  return { timesS, values, stride: 4, offset: 0, from: 0, to: quats.length - 1 };
}

describe('angular velocity', () => {
  it('is exact for a constant rate about any axis, on uneven times, from any start, in the axes of the parent', () => {
    fc.assert(fc.property(anyQuat, anyUnitVector, fc.double({ min: -12, max: 12, noNaN: true }), (start, axis, rate) => {
      const times = [0, 0.04, 0.05, 0.2, 0.21];
      const run = runOf(times.map((t) => multiply(fromAxisAngle(axis, rate * t), start)), times);
      angularVelocities(run).forEach((v, i) => {
        // a rounding error of an orientation over the shortest interval of 0.01 s
        expect(Math.abs(v - rate * axis[i % 3]!)).toBeLessThan(1e-12);
      });
    }), SEEDED);
  });

  it('of a turn about one axis is the slope of its angle to second order', () => {
    const times = Array.from({ length: 41 }, (_, k) => k * 0.02 + 0.004 * Math.sin(k));
    const v = angularVelocities(runOf(times.map((t) => fromAxisAngle([0, 0, 1], Math.sin(3 * t))), times));
    // a third derivative of 27 times h²/6
    for (let k = 1; k < 40; k++) expect(Math.abs(v[k * 3 + 2]! - 3 * Math.cos(3 * times[k]!))).toBeLessThan(0.004);
  });

  it('does not mind the sign of a quaternion, and a single knot stands still', () => {
    const q = fromAxisAngle([0, 1, 0], 0.3);
    expect(angularVelocities(runOf([[1, 0, 0, 0], [-q[0], -q[1], -q[2], -q[3]]], [0, 0.1]))[1]).toBeCloseTo(3, 12);
    expect([...angularVelocities(runOf([q], [0]))]).toEqual([0, 0, 0]);
  });
});
