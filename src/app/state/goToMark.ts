/** The keys that go from mark to mark on Pace. */
import { markBeside } from '../../timing/marks/besideMark.ts';
import { currentBook } from './bookStore.ts';
import { paceView } from './paceView.ts';
import { playhead } from './playhead.ts';
import { say, session } from './session.ts';

/** Chooses the next mark (1) or the one before (−1), from the one that has the focus or from the playhead; its grip takes the focus. */
export function goToMark(by: 1 | -1): void {
  const { plan } = session.getState();
  if (plan === null || plan.stepCount === 0) return;
  const step = Math.min(plan.stepCount - 1, playhead.getState().step);
  const fromS = (plan.exposure[step]! - 1) / plan.rate;
  const { marks } = currentBook().timing;
  const focused = document.activeElement?.closest<HTMLElement>('[data-mark]')?.dataset['mark'] ?? null;
  const mark = markBeside(marks, focused, { fromS, toS: fromS + plan.holds[step]! / plan.rate }, by);
  if (mark === undefined) say(marks.length === 0 ? 'There is no mark yet.' : by > 0 ? 'No later mark.' : 'No earlier mark.');
  else paceView.setState({ picked: mark.id, wanted: mark.id });
}
