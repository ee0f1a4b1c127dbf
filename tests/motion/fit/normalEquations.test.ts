import { describe, expect, it } from 'vitest';
import { BONE_COUNT, FRAME_SIZE, PITCH_AT, ROLL_AT } from '../../../src/motion/fit/layout.ts';
import { solveDense } from '../../../src/motion/fit/bandedCholesky.ts';
import { FAMILIES, FAMILY_NAMES } from '../../../src/motion/fit/residuals/all.ts';
import { randomProblem } from './randomProblem.ts';
import { RowRecorder } from './rowRecorder.ts';

describe('NormalEquations', () => {
  it('finds the step that the same rows give when gathered densely, slacks and border included', () => {
    const frames = 5;
    const { problem, figure } = randomProblem(frames, 11);
    const rows = new RowRecorder(frames, figure.globals.length);
    rows.clear(figure, true);
    for (const name of FAMILY_NAMES) FAMILIES[name](problem, figure, rows);
    const n = frames * (FRAME_SIZE + BONE_COUNT) + figure.globals.length;
    const a = new Float64Array(n * n);
    const b = new Float64Array(n);
    for (const row of rows.rows) {
      for (const [i, x] of row.by) {
        b[i] = b[i]! - row.weight * x * row.r;
        for (const [j, y] of row.by) a[i * n + j] = a[i * n + j]! + row.weight * x * y;
      }
    }
    const damping = 0.01;
    for (let i = 0; i < n; i++) a[i * n + i] = a[i * n + i]! * (1 + damping);
    expect(solveDense(a, b)).toBe(true);
    expect(rows.solve(damping)).toBe(true);
    const got = [...rows.mainStep, ...rows.slackStep, ...rows.edgeStep];
    const size = Math.max(...b.map(Math.abs));
    // The band adds a millionth-scale floor to its diagonal, which the dense matrix lacks.
    for (let i = 0; i < n; i++) expect(Math.abs(got[i]! - b[i]!), `unknown ${i}`).toBeLessThan(1e-4 * size);
  });

  it('knows how surely it knows an unknown of the take: the diagonal of the dense inverse', () => {
    const frames = 4;
    const { problem, figure } = randomProblem(frames, 12);
    const rows = new RowRecorder(frames, figure.globals.length);
    rows.clear(figure, true);
    for (const name of FAMILY_NAMES) FAMILIES[name](problem, figure, rows);
    const first = frames * (FRAME_SIZE + BONE_COUNT);
    const n = first + figure.globals.length;
    expect(rows.solve(0)).toBe(true);
    for (const index of [PITCH_AT, ROLL_AT]) {
      const a = new Float64Array(n * n);
      for (const row of rows.rows) for (const [i, x] of row.by) for (const [j, y] of row.by) a[i * n + j] = a[i * n + j]! + row.weight * x * y;
      const b = new Float64Array(n);
      b[first + index] = 1;
      expect(solveDense(a, b)).toBe(true);
      // The band's floor again.
      expect(rows.edgeSigma(index) / Math.sqrt(b[first + index]!)).toBeCloseTo(1, 3);
    }
  });
});
