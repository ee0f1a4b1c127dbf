import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hermite, pchip, pchipSlopes } from '../../src/numeric/pchip.ts';
import { angleBetween, fromAxisAngle, multiply, readQuat, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { makeSignContinuous, squadBetween, type QuatRun } from '../../src/numeric/quaternionSeries.ts';
import { twoSidedSum } from '../../src/numeric/twoSidedMean.ts';
import { nearestTurn, unwrap } from '../../src/numeric/unwrap.ts';
import { anyQuat, SEEDED } from './arbitrary.ts';
import curves from './data/pchip.json' with { type: 'json' };
import rotations from './data/rotations.json' with { type: 'json' };

function runOf(quats: readonly Quat[], timesS: readonly number[]): QuatRun {
  const values = new Float64Array(quats.length * 4);
  quats.forEach((q, k) => writeQuat(values, k, q));
  return { timesS, values, stride: 4, offset: 0, from: 0, to: quats.length - 1 };
}

describe('pchip', () => {
  it.each(curves.cases)('equals scipy on $name', ({ x, y, at, pchip: expected, slopes }) => {
    const got = pchip(x, y, at);
    // same formula, other order of operations
    got.forEach((value, k) => expect(Math.abs(value - expected[k]!)).toBeLessThan(1e-12 * 100));
    if (slopes !== null) pchipSlopes(x, y).forEach((m, k) => expect(Math.abs(m - slopes[k]!)).toBeLessThan(1e-12));
  });

  it('never leaves the range of its knots, and passes through them', () => {
    const values = fc.array(fc.double({ min: -5, max: 5, noNaN: true }).map((v) => v + 0), { minLength: 2, maxLength: 12 });
    fc.assert(fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (y, u) => {
      const x = y.map((_, k) => k + 0.3 * Math.sin(k));
      expect([...pchip(x, y, x)]).toEqual(y);
      y.slice(1).forEach((_, k) => {
        const [value] = pchip(x, y, [x[k]! + u * (x[k + 1]! - x[k]!)]);
        expect(value!).toBeGreaterThanOrEqual(Math.min(y[k]!, y[k + 1]!) - 1e-12);
        expect(value!).toBeLessThanOrEqual(Math.max(y[k]!, y[k + 1]!) + 1e-12);
      });
    }), SEEDED);
  });

  it('holds the end values outside, and a single knot everywhere', () => {
    expect([...pchip([1, 2, 3], [5, 7, 6], [-9, 0, 9])]).toEqual([5, 5, 6]);
    expect([...pchip([1], [4], [0, 1, 2])]).toEqual([4, 4, 4]);
    expect([...pchip([0, 2], [0, 4], [0.5, 1])]).toEqual([1, 2]);
  });
});

describe('unwrap', () => {
  it('equals numpy', () => {
    expect([...unwrap(rotations.unwrapDeg.in, 360)]).toEqual(rotations.unwrapDeg.out);
  });

  it('passes over what is not known', () => {
    expect([...unwrap([170, Number.NaN, -170], 360)]).toEqual([170, Number.NaN, 190]);
    expect(nearestTurn(-3, 3)).toBeCloseTo(2 * Math.PI - 3, 14);
  });
});

describe('quaternions over time', () => {
  it('keeps one sign, over unknown entries too', () => {
    const q = fromAxisAngle([0, 0, 1], 0.4);
    const series = new Float64Array([...q.map((c) => -c), NaN, NaN, NaN, NaN, ...q.map((c) => -c), ...q]);
    makeSignContinuous(series, 4, 4, 0);
    expect(readQuat(series, 0)).toEqual(q);
    expect(readQuat(series, 1)).toEqual([NaN, NaN, NaN, NaN]);
    expect(readQuat(series, 2)).toEqual(q);
    expect(readQuat(series, 3)).toEqual(q);
  });

  it('squad passes through every knot', () => {
    fc.assert(fc.property(fc.array(anyQuat, { minLength: 2, maxLength: 6 }), (quats) => {
      const run = runOf(quats, quats.map((_, k) => k * 0.04 + 0.01 * Math.sin(k)));
      quats.slice(1).forEach((q, k) => {
        expect(angleBetween(squadBetween(run, k, 1), q)).toBeLessThan(1e-15);
        expect(angleBetween(squadBetween(run, k, 1 - 1e-12), q)).toBeLessThan(1e-10);
        expect(angleBetween(squadBetween(run, k, 0), quats[k]!)).toBeLessThan(1e-15);
      });
    }), SEEDED);
  });

  it('squad about one axis is PCHIP of the angle, on uneven times', () => {
    const times = [0, 0.2, 0.5, 0.61, 1, 1.2];
    const angles = [0.1, 0.9, 0.9, 1.4, 0.2, 0.3];
    const axis = [0.6, 0, 0.8] as const;
    const run = runOf(angles.map((a) => fromAxisAngle(axis, a)), times);
    const slopes = pchipSlopes(times, angles);
    for (let k = 0; k + 1 < times.length; k++) {
      for (const u of [0.1, 0.35, 0.5, 0.8]) {
        const h = times[k + 1]! - times[k]!;
        const angle = hermite(h, u, angles[k]!, angles[k + 1]!, slopes[k]!, slopes[k + 1]!);
        expect(angleBetween(squadBetween(run, k, u), fromAxisAngle(axis, angle))).toBeLessThan(1e-14);
      }
    }
  });

  it('squad has no kink: the speed on both sides of a knot is the same', () => {
    const quats = [0, 1, 2, 3, 4].map((k) =>
      multiply(fromAxisAngle([0, 1, 0], 0.5 * k), fromAxisAngle([1, 0, 0], 0.3 * Math.sin(k))));
    const run = runOf(quats, [0, 0.2, 0.4, 0.55, 0.8]);
    const small = 1e-5;
    for (let k = 1; k < 4; k++) {
      const before = angleBetween(squadBetween(run, k - 1, 1 - small), quats[k]!) / (small * (run.timesS[k]! - run.timesS[k - 1]!));
      const after = angleBetween(quats[k]!, squadBetween(run, k, small)) / (small * (run.timesS[k + 1]! - run.timesS[k]!));
      // finite difference over 1e-5 of an interval
      expect(Math.abs(before - after)).toBeLessThan(1e-3 * Math.abs(after));
    }
  });

  it('squad keeps a hold still', () => {
    const held = fromAxisAngle([0, 0.6, 0.8], 0.7);
    const run = runOf([fromAxisAngle([1, 0, 0], 0.2), held, held, fromAxisAngle([0, 1, 0], 1.1)], [0, 0.2, 0.4, 0.6]);
    for (const u of [0.2, 0.5, 0.9]) expect(angleBetween(squadBetween(run, 1, u), held)).toBeLessThan(1e-15);
  });
});

describe('two-sided sum', () => {
  it('equals the plain double sum, on uneven times', () => {
    const times = [0, 0.1, 0.15, 0.4, 0.41, 0.9];
    const input = [1, -2, 0.5, 3, 0, 4];
    const values = new Float64Array([99, 99, ...input.flatMap((v) => [v, -2 * v]), 99, 99]);
    twoSidedSum([-1, ...times, 2], values, 2, 1, times.length, 0.15);
    times.forEach((t, k) => {
      const slow = input.reduce((sum, v, i) => sum + v * Math.exp(-Math.abs(t - times[i]!) / 0.15), 0);
      expect(values[(k + 1) * 2]!).toBeCloseTo(slow, 12);
      expect(values[(k + 1) * 2 + 1]!).toBeCloseTo(-2 * slow, 12);
    });
    expect([values[0], values[values.length - 1]]).toEqual([99, 99]);
  });
});
