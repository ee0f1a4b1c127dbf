import { describe, expect, it } from 'vitest';
import { cutFigure, cutProblem } from '../../../src/motion/corrections/windows.ts';
import { NOTHING_SAID } from '../../../src/motion/fit/handSet.ts';
import { FAMILIES } from '../../../src/motion/fit/residuals/all.ts';
import { randomProblem } from '../fit/randomProblem.ts';
import { RowRecorder } from '../fit/rowRecorder.ts';

describe('a window of a take', () => {
  it('asks of its frames what the whole take asks of them, camera by camera', () => {
    const { problem, figure } = randomProblem(9, 4, false);
    const window = { from: 3, to: 6 };
    const cut = cutProblem(problem, figure, window, NOTHING_SAID);
    const part = cutFigure(figure, window);
    for (const name of ['image', 'worldDepth', 'elbowAngle', 'bend', 'straight'] as const) {
      const whole = new RowRecorder(9, figure.globals.length);
      whole.clear(figure, true);
      FAMILIES[name](problem, figure, whole);
      const some = new RowRecorder(4, figure.globals.length);
      some.clear(part, true);
      FAMILIES[name](cut, part, some);
      const values = (rows: RowRecorder): string[] => rows.rows.map(({ r, weight }) => `${r.toFixed(9)} ${weight.toFixed(9)}`);
      const all = values(whole);
      const told = values(some);
      expect(told.length, name).toBeGreaterThan(0);
      expect(all, name).toEqual(expect.arrayContaining(told));
    }
  });
});
