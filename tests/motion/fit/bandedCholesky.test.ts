import { describe, expect, it } from 'vitest';
import { factorBand, forwardSolve, backwardSolve, solveBordered, solveDense } from '../../../src/motion/fit/bandedCholesky.ts';
import { evenNumbers } from './syntheticTake.ts';

/** Gauss with pivoting on a full matrix: slow and obvious. */
function gauss(matrix: number[][], right: number[]): number[] {
  const n = right.length;
  const a = matrix.map((row, i) => [...row, right[i]!]);
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[best]![c]!)) best = r;
    [a[c], a[best]] = [a[best]!, a[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const by = a[r]![c]! / a[c]![c]!;
      for (let k = c; k <= n; k++) a[r]![k] = a[r]![k]! - by * a[c]![k]!;
    }
  }
  return a.map((row, i) => row[n]! / row[i]!);
}

/** A positive definite matrix of that shape: sum of outer products of rows that span three blocks and the border, plus a little diagonal. */
function randomMatrix(blocks: number, m: number, g: number, seed: number): number[][] {
  const even = evenNumbers(seed);
  const n = blocks * m + g;
  const full = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j): number => (i === j ? 0.1 : 0)));
  for (let t = 0; t < blocks; t++) {
    for (let rows = 0; rows < 2 * m; rows++) {
      const v = new Array<number>(n).fill(0);
      for (let i = Math.max(0, t - 2) * m; i < (t + 1) * m; i++) v[i] = even() - 0.5;
      for (let i = blocks * m; i < n; i++) v[i] = even() - 0.5;
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) full[i]![j] = full[i]![j]! + v[i]! * v[j]!;
    }
  }
  return full;
}

function pack(full: number[][], blocks: number, m: number): Float64Array {
  const band = new Float64Array(blocks * m * 3 * m);
  for (let i = 0; i < blocks * m; i++) {
    const shift = (Math.floor(i / m) - 2) * m;
    for (let c = 0; c < 3 * m; c++) if (c + shift >= 0 && c + shift <= i) band[i * 3 * m + c] = full[i]![c + shift]!;
  }
  return band;
}

// Condition numbers here are below 1e5: double precision leaves 1e-10.
const TOLERANCE = 1e-9;

describe('bandedCholesky', () => {
  for (const [blocks, m, g] of [[1, 3, 2], [2, 4, 1], [5, 4, 3], [7, 3, 5], [6, 1, 2], [4, 28, 34]] as const) {
    it(`solves ${blocks} blocks of ${m} with a border of ${g} as a dense solver does`, () => {
      const full = randomMatrix(blocks, m, g, blocks * 100 + m);
      const n = blocks * m;
      const even = evenNumbers(7);
      const right = Array.from({ length: n + g }, () => even() - 0.5);
      const wanted = gauss(full, right);
      const main = Float64Array.from(right.slice(0, n));
      const edge = Float64Array.from(right.slice(n));
      const border = Float64Array.from({ length: g * n }, (_, k) => full[n + Math.floor(k / n)]![k % n]!);
      const corner = Float64Array.from({ length: g * g }, (_, k) => full[n + Math.floor(k / g)]![n + (k % g)]!);
      expect(solveBordered(pack(full, blocks, m), blocks, m, border, corner, main, edge)).toBe(true);
      for (let i = 0; i < n; i++) expect(main[i]).toBeCloseTo(wanted[i]!, -Math.log10(TOLERANCE));
      for (let i = 0; i < g; i++) expect(edge[i]).toBeCloseTo(wanted[n + i]!, -Math.log10(TOLERANCE));
    });
  }

  it('solves without a border in two halves', () => {
    const full = randomMatrix(6, 5, 0, 3);
    const right = Array.from({ length: 30 }, (_, i) => Math.sin(i));
    const wanted = gauss(full, right);
    const band = pack(full, 6, 5);
    const x = Float64Array.from(right);
    expect(factorBand(band, 6, 5)).toBe(true);
    forwardSolve(band, 6, 5, x, 0);
    backwardSolve(band, 6, 5, x);
    for (let i = 0; i < 30; i++) expect(x[i]).toBeCloseTo(wanted[i]!, 8);
  });

  it('says when a matrix is not positive definite', () => {
    const full = randomMatrix(3, 2, 0, 5);
    full[4]![4] = -1;
    expect(factorBand(pack(full, 3, 2), 3, 2)).toBe(false);
    expect(solveDense(Float64Array.of(1, 2, 2, 1), Float64Array.of(1, 1))).toBe(false);
  });
});
