/** A finished fit as it stands in the solver, from which a body is made and from which corrections go on. */
import type { CameraSigma } from './cameraSigma.ts';
import type { Figure } from './figure.ts';
import type { FittedBody, FittedCamera } from './fittedBody.ts';
import { describeBody, layHeads, type AdjustCarried, type LaidHeads } from './output.ts';
import type { Problem } from './problem.ts';
import { makeRigid, standStill } from './rigid.ts';
import { costByFamily } from './solve.ts';
import type { View } from './view.ts';

/** `problem` and `figure` at every frame of the track; the first view is the camera whose frame the figure lives in. */
export interface WholeFit {
  readonly problem: Problem;
  readonly figure: Figure;
  readonly views: readonly View[];
  readonly given: FittedCamera['given'];
  readonly cameraSigma: CameraSigma;
  /** What a person said about head, hands and feet. */
  readonly adjust?: AdjustCarried | null;
  /** Heads laid once for a fit and all its corrections, which move them in depth alone. */
  readonly laid?: LaidHeads;
  readonly iterations: number;
  readonly stopped: boolean;
}

/** The body in stage axes, with constant lengths and standing feet. */
export function bodyOf({ problem, figure, views, given, cameraSigma, adjust, laid, iterations, stopped }: WholeFit): FittedBody {
  const rigid = makeRigid(figure);
  standStill(rigid, problem.planted);
  const body = describeBody(problem, rigid, views, adjust ?? null, laid);
  return {
    timesS: problem.timesS, ...body, camera: { ...body.camera, pitchSigmaRad: cameraSigma.pitchRad, rollSigmaRad: cameraSigma.rollRad, given }, swaps: [], slate: null,
    cost: costByFamily(problem, figure), iterations, stopped,
  };
}

/** The fit with its heads laid. */
export function withHeads(whole: WholeFit): WholeFit {
  const rigid = makeRigid(whole.figure);
  standStill(rigid, whole.problem.planted);
  return { ...whole, laid: layHeads(rigid, whole.views[0]!) };
}
