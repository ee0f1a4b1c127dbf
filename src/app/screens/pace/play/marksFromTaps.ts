/** Taps become marks in one edit of the timing; what finds no place stays in the list. */
import type { Plan } from '../../../../plan/plan.ts';
import { placeMarks, warpFor } from '../../../../timing/marks/marks.ts';
import type { CountedTap } from '../../../../timing/taps/taps.ts';
import { filmSHere, taps as tapStore } from '../../../play/stopwatch.ts';
import { currentBook } from '../../../state/bookStore.ts';
import { say } from '../../../state/session.ts';
import { editTiming } from '../../../state/timingEdits.ts';

/** @param taps as counted at the plan's rate; those that were tapped without a plan are counted from the playhead's step */
export function marksFromTaps(plan: Plan, taps: readonly CountedTap[]): void {
  const used = Math.max(0, ...currentBook().timing.marks.map(({ id }) => Number(/^tap(\d+)$/.exec(id)?.[1] ?? 0)));
  const idOf = (k: number): string => `tap${used + k + 1}`;
  const fromS = tapStore.getState().onFilm ? 0 : filmSHere();
  const at = taps.map(({ filmS }) => filmS + fromS);
  const endS = plan.exposureCount / plan.rate;
  const done = editTiming((timing, context) => {
    const warp = warpFor(timing, context);
    // behind the end there is no moment of the take to be tied to
    return placeMarks(timing, context, at.flatMap((filmS, k) => (filmS < endS ? [{ id: idOf(k), sourceS: warp.sourceAt(filmS), kind: 'tap' as const, name: `tap ${k + 1}` }] : [])));
  }, { label: 'marks from taps' });
  if (!done) return;
  const placed = new Set(currentBook().timing.marks.map(({ id }) => id));
  const left = at.filter((_, k) => !placed.has(idOf(k)));
  const made = taps.length - left.length;
  const outcome = left.length === 0 ? `${made} ${made === 1 ? 'mark' : 'marks'} made; they can be moved in Retime.`
    : `${left.length} of ${taps.length} taps found no place and stay in the list: they fall on the first exposure, on another mark, or beyond the take.`;
  tapStore.setState({ tapsS: left, onFilm: true, outcome });
  say(outcome);
}
