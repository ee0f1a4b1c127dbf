/** Moments of the take as they fall on the steps of the plan. */
import { LIMBS, type Moments, type MomentsOnSteps, type MomentsOf, type MoveOnSteps, type Pause, type PauseOnSteps } from './moments.ts';

/** Steps that show one moment of the take are a pause from this many on. */
const HELD_STEPS = 2;

/**
 * Moves and pauses that a plan shows, in its steps. A moment that the timing holds still is a pause of every limb, joined to
 * those that the performer made around it.
 *
 * @param sourceTimeS `[N]` container time of each step, never falling
 */
export function momentsOnSteps({ moves, pauses }: Moments, sourceTimeS: Float64Array): MomentsOnSteps {
  const count = sourceTimeS.length;
  if (count === 0) return { moves: [], pauses: [] };
  const [firstS, lastS] = [sourceTimeS[0]!, sourceTimeS[count - 1]!];
  const onMoves = moves.flatMap((move): readonly MoveOnSteps[] => {
    if (move.endS <= firstS || move.startS >= lastS) return [];
    return [{ ...move, startStep: stepAt(sourceTimeS, move.startS, 'last'), peakStep: stepAt(sourceTimeS, move.peakS, 'first'), endStep: stepAt(sourceTimeS, move.endS, 'first') }];
  });
  const held = heldSteps(sourceTimeS);
  const onPauses = ([...LIMBS, 'body'] as const).flatMap((of) => {
    const own = pauses.filter((pause) => pause.of === of).flatMap((pause) => spanOf(pause, sourceTimeS));
    return joined([...own, ...held.map(({ fromStep, toStep }) => pauseAt(of, sourceTimeS, fromStep, toStep))]);
  });
  return { moves: onMoves, pauses: onPauses };
}

/** Where between the steps a moment of the take stands; of several steps with one moment the first or the last. */
export function stepAt(sourceTimeS: Float64Array, atS: number, of: 'first' | 'last'): number {
  const last = sourceTimeS.length - 1;
  let low = 0;
  let high = last + 1;
  // first step that is not before (or lies behind) the moment
  while (low < high) {
    const middle = (low + high) >> 1;
    if (of === 'first' ? sourceTimeS[middle]! < atS : sourceTimeS[middle]! <= atS) low = middle + 1;
    else high = middle;
  }
  if (of === 'last') {
    if (low === 0) return 0;
    if (low > last) return last;
    const [a, b] = [sourceTimeS[low - 1]!, sourceTimeS[low]!];
    return low - 1 + (atS - a) / (b - a);
  }
  if (low === 0) return 0;
  if (low > last) return last;
  const [a, b] = [sourceTimeS[low - 1]!, sourceTimeS[low]!];
  return low - 1 + (atS - a) / (b - a);
}

/** First and last step within a pause; none where no step falls into it. */
function spanOf(pause: Pause, sourceTimeS: Float64Array): readonly PauseOnSteps[] {
  const hair = 1e-9;
  const fromStep = Math.ceil(stepAt(sourceTimeS, pause.fromS, 'first') - hair);
  const toStep = Math.floor(stepAt(sourceTimeS, pause.toS, 'last') + hair);
  if (toStep < fromStep || pause.toS < sourceTimeS[0]! || pause.fromS > sourceTimeS[sourceTimeS.length - 1]!) return [];
  return [{ ...pause, fromStep, toStep }];
}

function heldSteps(sourceTimeS: Float64Array): readonly { readonly fromStep: number; readonly toStep: number }[] {
  const out: { fromStep: number; toStep: number }[] = [];
  for (let s = 0; s < sourceTimeS.length; s++) {
    let to = s;
    while (to + 1 < sourceTimeS.length && sourceTimeS[to + 1] === sourceTimeS[s]) to++;
    if (to - s + 1 >= HELD_STEPS) out.push({ fromStep: s, toStep: to });
    s = to;
  }
  return out;
}

function pauseAt(of: MomentsOf, sourceTimeS: Float64Array, fromStep: number, toStep: number): PauseOnSteps {
  return { of, fromS: sourceTimeS[fromStep]!, toS: sourceTimeS[toStep]!, driftDeg: 0, fromStep, toStep };
}

/** In order, those that touch as one. */
function joined(pauses: readonly PauseOnSteps[]): readonly PauseOnSteps[] {
  const out: PauseOnSteps[] = [];
  for (const pause of [...pauses].sort((a, b) => a.fromStep - b.fromStep)) {
    const last = out.at(-1);
    if (last === undefined || pause.fromStep > last.toStep + 1) {
      out.push(pause);
      continue;
    }
    out[out.length - 1] = {
      of: last.of, fromS: Math.min(last.fromS, pause.fromS), toS: Math.max(last.toS, pause.toS), driftDeg: Math.max(last.driftDeg, pause.driftDeg),
      fromStep: last.fromStep, toStep: Math.max(last.toStep, pause.toStep),
    };
  }
  return out;
}
