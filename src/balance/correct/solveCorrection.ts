/**
 * The smallest change that brings a span of steps to a margin.
 *
 * A change is a few amounts (`means.ts`) that go along the steps as smooth curves (`profile.ts`). Over the base of support, a convex
 * outline, the margin is the least distance to its edges, so a wanted margin is one linear demand for each edge at each step
 * (`demands.ts`); how the centre of mass goes with each amount is read off the puppet itself, legs solved again (`stepReader.ts`). The
 * least change that keeps all demands (`leastChange.ts`) is found, the puppet read again there, and so on (`seekChange.ts`). What it comes
 * to is judged by the plan as it will be ordered, at every step: what rounding takes away from a step is asked for on top there, a joint
 * that jumps becomes a demand, and it is tried again (`tryCourse.ts`).
 */
import type { Balance } from '../balance.ts';
import { deepest } from './base.ts';
import { cannotHold } from './cannotHold.ts';
import type { CorrectionAsk, CorrectionResult, CorrectionSources } from './correctionShapes.ts';
import { farthestReach } from './farthestReach.ts';
import { amountsOf } from './means.ts';
import { problemOf } from './problem.ts';
import { profileOver } from './profile.ts';
import { courseOf, type Course } from './seekChange.ts';
import { turnBetween } from './stepTurns.ts';
import { tryCourse, type Tried } from './tryCourse.ts';
import { whatStops } from './whatStops.ts';

export type { CorrectionAsk, CorrectionResult, CorrectionSources, Trial } from './correctionShapes.ts';

/** Steps before and behind the span over which the change may come and go: tried in turn. Our choice. */
const EASES = [9, 18, 36] as const;
/** The same for how much can be had where the wanted margin can't. */
const REACH_EASE = 18;
const TRIALS = 8;

/** @returns what was found, judged anew at every step of the span; or what is in the way, and what would hold it instead */
export function solveCorrection(sources: CorrectionSources, ask: CorrectionAsk): CorrectionResult {
  const { armature, moved, balance, sourceTimeS } = sources;
  const { marginMm } = ask;
  const span = known(balance, ask.fromStep, ask.toStep);
  if (span.length === 0) return { kind: 'nothing', sentence: 'Nothing can be corrected here: no margin is known at these steps.' };
  const worst = span.reduce((least, s) => (balance.standMm[s]! < balance.standMm[least]! ? s : least), span[0]!);
  const before = balance.standMm[worst]!;
  if (before >= marginMm) return { kind: 'nothing', sentence: 'These steps have the margin already.' };
  const amounts = amountsOf(armature, moved.joints, ask.means);
  if (amounts.length === 0) return { kind: 'cannot', ...cannotHold(sources, ask, span, before, 'The puppet has none of the joints that were chosen for it.') };
  const problem = problemOf(sources, amounts);
  const lastStep = sourceTimeS.length - 1;
  const deepestMm = Math.min(...span.map((s) => deepest(balance.support[s]!)));
  const courseAt = (ease: number): Course => courseOf(problem, profileOver(span[0]!, span[span.length - 1]!, ease, lastStep));
  let reachedMm = before;
  let stopped: Exclude<Tried['kind'], 'found'> = 'limits';
  for (let i = 0; i < EASES.length && deepestMm >= marginMm; i++) {
    const course = courseAt(EASES[i]!);
    const tried = tryCourse(sources, ask, problem, span, course, TRIALS);
    if (tried.kind === 'found') {
      const { correction, trial } = tried;
      const width = armature.joints.length;
      let turnDeg = 0;
      for (let p = 0; p < width; p++) turnDeg += turnBetween(trial.moved.rotations, worst * width + p, moved.rotations, worst * width + p);
      return { kind: 'found', correction, beforeMm: balance.standMm, afterMm: trial.balance.standMm, turnDeg };
    }
    reachedMm = Math.max(reachedMm, tried.reachedMm);
    stopped = tried.kind;
    if (course.profile.from === 0 && course.profile.to === lastStep) break;
    // what the joints can't do in a short while they may do in the longest; what lies between would tell nothing new
    if (stopped === 'limits') i = Math.max(i, EASES.length - 2);
  }
  reachedMm = farthestReach(sources, ask, problem, span, courseAt(REACH_EASE), reachedMm, Math.min(marginMm, deepestMm));
  return { kind: 'cannot', ...cannotHold(sources, ask, span, reachedMm, whatStops(stopped, marginMm, deepestMm, reachedMm)) };
}

function known({ standMm }: Balance, from: number, to: number): number[] {
  const out: number[] = [];
  for (let s = Math.max(0, from); s <= Math.min(standMm.length - 1, to); s++) if (Number.isFinite(standMm[s]!)) out.push(s);
  return out;
}
