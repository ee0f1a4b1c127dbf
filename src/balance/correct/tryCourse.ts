/**
 * Tries a change of one course as the plan that it makes, over and over: what the plan's rounding takes away from a step is asked for on
 * top there, and a joint that jumps there becomes a demand. Only what the plan itself was seen to reach counts.
 */
import type { PoiseCorrection } from '../poiseSettings.ts';
import { correctionOf } from './correctionOf.ts';
import type { CorrectionAsk, CorrectionSources, Trial } from './correctionShapes.ts';
import { NO_WATCHES, watched, type Watches } from './jumpDemands.ts';
import type { Problem } from './problem.ts';
import { seekChange, type Course } from './seekChange.ts';
import { jumpsOf } from './stepTurns.ts';

/** Comparisons of steps: far below any hand, degrees. */
const HAIR_DEG = 0.05;
/** Steps of a long span that are looked at to begin with; those that lack in a trial are looked at too. */
const LOOKED_AT = 24;
/**
 * What is asked for on top where a step lacks: at least this part of the leg's length, more from trial to trial, since a change that is less than the
 * joints' smallest moves changes nothing that is set. Our choice.
 */
const RAISE_PART = 0.0015;

export type Tried =
  | { readonly kind: 'found'; readonly correction: PoiseCorrection; readonly trial: Trial; readonly control: Float64Array }
  /** `reachedMm`: the best that a plan without a jump was seen to reach; -Infinity: none. */
  | { readonly kind: 'limits' | 'jump' | 'rounding'; readonly reachedMm: number };

/** @param span steps that are to have the margin. @param trials most plans that are made. @param start control values from which it is read */
export function tryCourse(
  { armature, sourceTimeS, trial: planWith }: CorrectionSources, ask: CorrectionAsk, problem: Problem, span: readonly number[], course: Course, trials: number,
  start: Float64Array = new Float64Array(course.weights.length),
): Tried {
  const { amounts, changer, largest, balance, legMm } = problem;
  const { profile } = course;
  const wanted = new Map(spread(span, (s) => balance.standMm[s]!).map((s) => [s, ask.marginMm]));
  let watches: Watches = NO_WATCHES;
  let control = start;
  let [reachedMm, lacked, jumped] = [-Infinity, false, false];
  for (let turn = 0; turn < trials; turn++) {
    const next = seekChange(problem, course, wanted, watches, control);
    if (next === null) break;
    control = next;
    const correction = correctionOf(ask, amounts, profile, control, armature, sourceTimeS, (step, change) => changer.at(step, amounts, change).liftMm);
    const trial = planWith(correction);
    const { standMm } = trial.balance;
    const reached = Math.min(...span.map((s) => (Number.isFinite(standMm[s]!) ? standMm[s]! : -Infinity)));
    const jumps = jumpsOf(trial.moved, largest, profile.from - 1, profile.to + 1, HAIR_DEG);
    if (jumps.length === 0) {
      reachedMm = Math.max(reachedMm, reached);
      if (reached >= ask.marginMm) return { kind: 'found', correction, trial, control };
    } else {
      jumped = true;
      watches = watched(watches, jumps, problem, profile, control);
    }
    for (const s of span) {
      const lack = ask.marginMm - standMm[s]!;
      if (!(lack > 0)) continue;
      lacked = true;
      wanted.set(s, (wanted.get(s) ?? ask.marginMm) + Math.max(RAISE_PART * legMm * (turn + 1), lack));
    }
  }
  return { kind: jumped ? 'jump' : lacked ? 'rounding' : 'limits', reachedMm };
}

/** All steps of a short span; of a long one so many, evenly, and the worst. */
function spread(span: readonly number[], marginMm: (step: number) => number): readonly number[] {
  if (span.length <= LOOKED_AT) return span;
  const worst = span.reduce((least, s) => (marginMm(s) < marginMm(least) ? s : least), span[0]!);
  return [...new Set([...Array.from({ length: LOOKED_AT }, (_, k) => span[Math.round((k * (span.length - 1)) / (LOOKED_AT - 1))]!), worst])];
}
