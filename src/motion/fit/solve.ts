/** Levenberg-Marquardt: linearise with the losses' weights, solve, keep the step if it helps, else shorten it. */
import { copyUnknowns, emptyFigure, settle, stepFigure, type Figure } from './figure.ts';
import { NormalEquations } from './normalEquations.ts';
import type { Problem } from './problem.ts';
import { FAMILIES, FAMILY_NAMES, type FamilyName } from './residuals/all.ts';

export interface SolveLimits {
  readonly iterations: number;
  /** Relative fall of the cost below which the work is done. */
  readonly enough: number;
  /** Families left out, for ablations and tests. */
  readonly without: readonly FamilyName[];
  readonly shouldStop: () => boolean;
  readonly onIteration: (done: number) => void;
}

export interface Solved {
  readonly iterations: number;
  readonly cost: number;
  readonly stopped: boolean;
}

/** First damping, how it grows and falls, and when to give up (chosen: usual values; the start is near). */
const FIRST_DAMPING = 1e-3;
const LEAST_DAMPING = 1e-6;
const MOST_DAMPING = 1e6;

/**
 * Improves `figure` in place.
 *
 * @param rows room for the equations, to be used again by the next call: as many frames as the figure, and as many unknowns of the
 *   take as are to be found (0 holds them as they are)
 */
export function solve(problem: Problem, figure: Figure, rows: NormalEquations, limits: SolveLimits): Solved {
  const trial = emptyFigure(figure.frames, figure.globals.length);
  const families = FAMILY_NAMES.filter((name) => !limits.without.includes(name));
  const gather = (at: Figure, linear: boolean): number => {
    rows.clear(at, linear);
    for (const name of families) FAMILIES[name](problem, at, rows);
    return rows.cost;
  };
  settle(figure);
  let damping = FIRST_DAMPING;
  let cost = gather(figure, true);
  let iterations = 0;
  while (iterations < limits.iterations) {
    if (limits.shouldStop()) return { iterations, cost, stopped: true };
    iterations++;
    let better = false;
    let next = cost;
    while (damping <= MOST_DAMPING) {
      if (rows.solve(damping)) {
        stepFigure(figure, trial, rows.mainStep, rows.slackStep, rows.edgeStep);
        next = gather(trial, false);
        if (next < cost) {
          better = true;
          break;
        }
      }
      damping *= 8;
    }
    limits.onIteration(iterations);
    if (!better) break;
    damping = Math.max(LEAST_DAMPING, damping / 5);
    copyUnknowns(trial, figure);
    settle(figure);
    const fall = (cost - next) / cost;
    cost = next;
    if (fall < limits.enough || iterations === limits.iterations) break;
    gather(figure, true);
  }
  return { iterations, cost, stopped: false };
}

/** Cost of each family at the figure, in the units of squared sigmas. */
export function costByFamily(problem: Problem, figure: Figure): Record<FamilyName, number> {
  const rows = new NormalEquations(1, 0);
  const out = {} as Record<FamilyName, number>;
  for (const name of FAMILY_NAMES) {
    rows.clear(figure, false);
    FAMILIES[name](problem, figure, rows);
    out[name] = rows.cost;
  }
  return out;
}
