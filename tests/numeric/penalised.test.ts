import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factorPenalised, penalisedGain, roughnessOf, smoothPenalised, smoothTwiced, twicedGain, twicedStiffnessFor, type PenaltyOrder } from '../../src/numeric/penalised.ts';
import { SEEDED } from './arbitrary.ts';
import reference from './data/smoothing.json' with { type: 'json' };

const ORDERS: readonly PenaltyOrder[] = [2, 3];
const anyOrder = fc.constantFrom(...ORDERS);
const value = fc.double({ min: -10, max: 10, noNaN: true });
const series = fc.array(value, { minLength: 8, maxLength: 60 });

/** Rising times, up to 40 % off their place. */
const unevenTimes = (n: number): Float64Array => Float64Array.from({ length: n }, (_, k) => (k + 0.4 * Math.sin(k * k)) / 30);

interface Options { readonly times?: ArrayLike<number>; readonly weights?: ArrayLike<number> | null; readonly order?: PenaltyOrder }

function smoothed(y: ArrayLike<number>, stiffness: number, { times, weights = null, order = 3 }: Options = {}): Float64Array {
  const out = Float64Array.from(y);
  const at = times ?? Float64Array.from(y, (_, k) => k / 30);
  smoothPenalised(factorPenalised(roughnessOf(at, 1 / 30, order, stiffness), weights), out);
  return out;
}

/** The same minimum from full matrices by Gauss elimination with pivots. */
function plainly(y: readonly number[], weights: readonly number[], order: PenaltyOrder, stiffness: number): number[] {
  const n = y.length;
  const difference = order === 2 ? [1, -2, 1] : [-1, 3, -3, 1];
  const a = y.map((_, i) => y.map((__, j) => (i === j ? weights[i]! : 0)));
  for (let r = 0; r + order < n; r++) {
    difference.forEach((ci, i) => difference.forEach((cj, j) => { a[r + i]![r + j]! += stiffness * ci * cj; }));
  }
  const b = y.map((v, k) => v * weights[k]!);
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[p]![c]!)) p = r;
    [a[c], a[p]] = [a[p]!, a[c]!];
    [b[c], b[p]] = [b[p]!, b[c]!];
    for (let r = c + 1; r < n; r++) {
      const f = a[r]![c]! / a[c]![c]!;
      for (let k = c; k < n; k++) a[r]![k]! -= f * a[c]![k]!;
      b[r]! -= f * b[c]!;
    }
  }
  for (let c = n - 1; c >= 0; c--) {
    for (let k = c + 1; k < n; k++) b[c]! -= a[c]![k]! * b[k]!;
    b[c]! /= a[c]![c]!;
  }
  return b;
}

/** Weighted least squares by a polynomial of degree order - 1, by the moments about the middle. */
function polynomial(times: ArrayLike<number>, y: readonly number[], weights: readonly number[], order: PenaltyOrder): number[] {
  const middle = times[y.length >> 1]!;
  const span = times[y.length - 1]! - times[0]!;
  const u = y.map((_, k) => (times[k]! - middle) / span);
  const a = Array.from({ length: order }, (_, i) => Array.from({ length: order }, (__, j) => u.reduce((s, v, k) => s + weights[k]! * v ** (i + j), 0)));
  const b = Array.from({ length: order }, (_, i) => u.reduce((s, v, k) => s + weights[k]! * y[k]! * v ** i, 0));
  for (let c = 0; c < order; c++) {
    for (let r = c + 1; r < order; r++) {
      const f = a[r]![c]! / a[c]![c]!;
      for (let k = c; k < order; k++) a[r]![k]! -= f * a[c]![k]!;
      b[r]! -= f * b[c]!;
    }
  }
  for (let c = order - 1; c >= 0; c--) {
    for (let k = c + 1; k < order; k++) b[c]! -= a[c]![k]! * b[k]!;
    b[c]! /= a[c]![c]!;
  }
  return u.map((v) => b.reduce((s, coefficient, i) => s + coefficient * v ** i, 0));
}

describe('the penalised smoother', () => {
  it('is the minimum that full matrices give', () => {
    fc.assert(fc.property(series, anyOrder, fc.constantFrom(0.1, 3, 100), fc.infiniteStream(fc.constantFrom(1, 1, 0.5, 0.05, 0)), (y, order, stiffness, stream) => {
      const weights = y.map((_, k) => (k % 5 === 0 ? 1 : stream.next().value!));
      if (weights.filter((w) => w > 0).length <= order) return;
      const expected = plainly(y, weights, order, stiffness);
      // condition about 64·100/0.05·(length of the gaps)⁶, times 1e-16
      smoothed(y, stiffness, { weights, order }).forEach((z, k) => expect(Math.abs(z - expected[k]!)).toBeLessThan(1e-8));
    }), { ...SEEDED, numRuns: 100 });
  });

  it.each(ORDERS)('order %d keeps what the formula says of a sine', (order) => {
    for (const [hz, cutoffHz] of [[2, 6], [6, 6], [1, 3], [9, 4]] as const) {
      const stiffness = twicedStiffnessFor(cutoffHz / 30, order);
      const x = Float64Array.from({ length: 1501 }, (_, k) => Math.cos((2 * Math.PI * hz * (k - 750)) / 30));
      expect(smoothed(x, stiffness, { order })[750]!).toBeCloseTo(penalisedGain(hz / 30, order, stiffness), 10);
      const twice = x.slice();
      smoothTwiced(factorPenalised(roughnessOf(x.map((_, k) => k / 30), 1 / 30, order, stiffness), null), twice);
      expect(twice[750]!).toBeCloseTo(twicedGain(hz / 30, order, stiffness), 10);
      if (hz === cutoffHz) expect(twicedGain(hz / 30, order, stiffness)).toBeCloseTo(Math.SQRT1_2, 14);
    }
  });

  it('twiced is the pass and the pass of what it leaves over, weights, strides and all', () => {
    fc.assert(fc.property(series, anyOrder, fc.infiniteStream(fc.double({ min: 0.05, max: 1, noNaN: true })), (y, order, draws) => {
      const weights = y.map(() => draws.next().value!);
      const factor = factorPenalised(roughnessOf(unevenTimes(y.length), 1 / 30, order, 50), weights);
      const once = Float64Array.from(y);
      smoothPenalised(factor, once);
      const rest = Float64Array.from(y, (v, k) => v - once[k]!);
      smoothPenalised(factor, rest);
      const wide = Float64Array.from({ length: y.length * 3 + 1 }, (_, i) => (i % 3 === 0 ? 7 : y[Math.floor((i - 1) / 3)]!));
      smoothTwiced(factor, wide, 3, 1, 2);
      y.forEach((_, k) => {
        for (const c of [0, 1]) expect(wide[1 + k * 3 + c]!).toBeCloseTo(once[k]! + rest[k]!, 9);
        expect(wide[3 * k]).toBe(7);
      });
    }), { ...SEEDED, numRuns: 50 });
  });

  it('is close to scipy’s smoothing spline of the same stiffness', () => {
    // the spline integrates the curvature, the smoother sums it: alike when the cut-off lies far below the sample rate
    for (const { x, y, lambda, result } of reference.smoothingSpline) {
      const h = x[1]! - x[0]!;
      const out = Float64Array.from(y);
      smoothPenalised(factorPenalised(roughnessOf(x, h, 2, lambda / h ** 3), null), out);
      const worst = out.reduce((most, z, k) => Math.max(most, Math.abs(z - result[k]!)), 0);
      expect(worst).toBeLessThan(lambda >= 1e-3 ? 0.05 : lambda >= 1e-4 ? 0.15 : 0.4);
    }
  });

  it('without stiffness gives the samples back', () => {
    fc.assert(fc.property(series, anyOrder, (y, order) => {
      smoothed(y, 0, { order, times: unevenTimes(y.length) }).forEach((z, k) => expect(Math.abs(z - y[k]!)).toBeLessThan(1e-14));
    }), SEEDED);
  });

  it('with all stiffness gives the weighted line, or parabola', () => {
    fc.assert(fc.property(series, anyOrder, fc.infiniteStream(fc.constantFrom(1, 0.5, 0.1)), (y, order, stream) => {
      const times = Float64Array.from(y, (_, k) => k / 30);
      // each end stands for a whole interval like all others
      const weights = y.map(() => stream.next().value!);
      const expected = polynomial(times, y, weights, order);
      const scale = order === 2 ? 1e9 : 1e11;
      smoothed(y, scale, { weights, order }).forEach((z, k) => expect(Math.abs(z - expected[k]!)).toBeLessThan(2e-3));
    }), SEEDED);
  });

  it('keeps constants and straight lines (and parabolas, order 3), on uneven times, with gaps, however stiff', () => {
    fc.assert(fc.property(value, value, value, anyOrder, fc.constantFrom(1, 1e3, 1e7, 1e10), (a, b, c, order, stiffness) => {
      const times = unevenTimes(50);
      const weights = times.map((_, k) => (k > 20 && k < 28 ? 0 : k % 3 === 0 ? 0.2 : 1));
      const y = times.map((t) => a + b * t + (order === 3 ? c * t * t : 0));
      // stiffness 1e10 loses ten of the sixteen digits, and the refinement gains most of them back
      smoothed(y, stiffness, { times, weights, order }).forEach((z, k) => expect(Math.abs(z - y[k]!)).toBeLessThan(1e-7));
    }), SEEDED);
  });

  it('does not look at samples of weight 0', () => {
    fc.assert(fc.property(series, value, anyOrder, (y, wild, order) => {
      const weights = y.map((_, k) => (k % 4 === 2 ? 0 : 1));
      const other = y.map((v, k) => (weights[k] === 0 ? wild * 1e3 : v));
      const a = smoothed(y, 5, { weights, order });
      smoothed(other, 5, { weights, order }).forEach((z, k) => expect(z).toBe(a[k]));
    }), SEEDED);
  });

  it('treats time forward and backward alike', () => {
    fc.assert(fc.property(series, anyOrder, (y, order) => {
      const times = unevenTimes(y.length);
      const back = times.map((_, k) => times[y.length - 1]! - times[y.length - 1 - k]!);
      const forth = smoothed(y, 20, { times, order });
      smoothed([...y].reverse(), 20, { times: back, order }).reverse().forEach((z, k) => expect(Math.abs(z - forth[k]!)).toBeLessThan(1e-10));
    }), SEEDED);
  });

  it('adds, and scales with its input and with the unit of time', () => {
    fc.assert(fc.property(series, value, anyOrder, (y, by, order) => {
      const other = y.map((_, k) => Math.sin(k * k));
      const a = smoothed(y, 10, { order });
      const b = smoothed(other, 10, { order });
      smoothed(y.map((v, k) => v + by * other[k]!), 10, { order }).forEach((z, k) => expect(Math.abs(z - a[k]! - by * b[k]!)).toBeLessThan(1e-11));
      const slow = Float64Array.from(y);
      smoothPenalised(factorPenalised(roughnessOf(y.map((_, k) => k * 7), 7, order, 10), null), slow);
      slow.forEach((z, k) => expect(Math.abs(z - a[k]!)).toBeLessThan(1e-11));
    }), SEEDED);
  });
});
