import { describe, expect, it } from 'vitest';
import { emptyFigure, stepFigure, type Figure } from '../../../src/motion/fit/figure.ts';
import { BONE_COUNT, FRAME_SIZE } from '../../../src/motion/fit/layout.ts';
import { FAMILIES, FAMILY_NAMES, type FamilyName } from '../../../src/motion/fit/residuals/all.ts';
import { randomProblem } from './randomProblem.ts';
import { RowRecorder } from './rowRecorder.ts';

const FRAMES = 4;
/** Step of the central difference; its error is about step² times the third derivative. */
const STEP = 1e-5;

function rowsOf(name: FamilyName, figure: Figure, seed: number, linear: boolean): RowRecorder {
  const { problem } = randomProblem(FRAMES, seed, true);
  const rows = new RowRecorder(FRAMES, figure.globals.length);
  rows.clear(figure, linear);
  FAMILIES[name](problem, figure, rows);
  return rows;
}

function nudged(figure: Figure, unknown: number, by: number): Figure {
  const main = new Float64Array(FRAMES * FRAME_SIZE);
  const slack = new Float64Array(FRAMES * BONE_COUNT);
  const edge = new Float64Array(figure.globals.length);
  if (unknown < main.length) main[unknown] = by;
  else if (unknown < main.length + slack.length) slack[unknown - main.length] = by;
  else edge[unknown - main.length - slack.length] = by;
  const out = emptyFigure(FRAMES, figure.globals.length);
  stepFigure(figure, out, main, slack, edge);
  return out;
}

describe('derivatives of the residuals', { timeout: 30_000 }, () => {
  for (const name of FAMILY_NAMES) {
    it(`${name}: agree with central differences`, () => {
      let checked = 0;
      const wrong: string[] = [];
      for (const seed of [1, 2, 3]) {
        const { figure } = randomProblem(FRAMES, seed, true);
        const here = rowsOf(name, figure, seed, true).rows;
        const unknowns = FRAMES * (FRAME_SIZE + BONE_COUNT) + figure.globals.length;
        for (let u = 0; u < unknowns; u++) {
          const up = rowsOf(name, nudged(figure, u, STEP), seed, false).rows;
          const down = rowsOf(name, nudged(figure, u, -STEP), seed, false).rows;
          // A limit that only just begins to count within the step has no slope to compare.
          if (up.length !== here.length || down.length !== here.length) continue;
          for (let i = 0; i < here.length; i++) {
            const slope = (up[i]!.r - down[i]!.r) / (2 * STEP);
            const told = here[i]!.by.get(u) ?? 0;
            if (Math.abs(slope) > 1e-3) checked++;
            if (!(Math.abs(told - slope) < 2e-4 * (1 + Math.abs(slope)))) wrong.push(`seed ${seed}, row ${i}, unknown ${u}: told ${told}, slope ${slope}`);
          }
        }
      }
      expect(wrong).toEqual([]);
      expect(checked, 'rows that depend on something').toBeGreaterThan(0);
    });
  }
});
