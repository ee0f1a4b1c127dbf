/** Edits of the timing on the bench: each one an edit of the book with its own words; what can't be done says why. */
import { NudgebookError } from '../../errors.ts';
import { baseOf } from '../../timing/steps.ts';
import { placeMark, type MarkContext, type NewMark } from '../../timing/marks/marks.ts';
import { insertPause, lengthenHold } from '../../timing/marks/spans.ts';
import type { TimingSettings } from '../../timing/timingSettings.ts';
import type { Base } from '../../timing/warp/anchors.ts';
import { currentBook, editBook, type EditWords } from './bookStore.ts';
import { paceView } from './paceView.ts';
import { playhead } from './playhead.ts';
import { showProblem } from './problems.ts';
import { session } from './session.ts';

/** What marks are set against: the used part of the take on the bench and the rate; `null` without a take. */
export function markContext(): MarkContext | null {
  const base = benchBase();
  return base === null ? null : { base, rate: currentBook().settings.rate };
}

/** The used part of the take on the bench; `null` without a take, or where in and out are crossed. */
export function benchBase(): Base | null {
  const timesS = session.getState().track?.timesS;
  if (timesS === undefined || timesS.length === 0) return null;
  try {
    return baseOf(currentBook().settings, timesS[0]!, timesS[timesS.length - 1]!);
  } catch (thrown) {
    // the planner says it too, where the person looks
    if (thrown instanceof NudgebookError) return null;
    throw thrown;
  }
}

/** Changes the timing; a refusal is shown, and nothing is changed. Returns whether it was done. */
export function editTiming(change: (timing: TimingSettings, context: MarkContext) => TimingSettings, words: EditWords = {}): boolean {
  const context = markContext();
  if (context === null) return false;
  try {
    const next = change(currentBook().timing, context);
    editBook((book) => (next === book.timing ? book : { ...book, timing: next }), words);
    return true;
  } catch (thrown) {
    showProblem(thrown);
    return false;
  }
}

/** An id that no mark of the book has. */
export function freshId(prefix: string): string {
  const { timing, timingVersions, poise } = currentBook();
  const taken = new Set([...timing.marks, ...timingVersions, ...poise.corrections].map(({ id }) => id));
  let k = 1;
  while (taken.has(`${prefix}${k}`)) k++;
  return `${prefix}${k}`;
}

/** A mark placed by hand at a moment of the take. */
export function newMarkAt(sourceS: number, kind: NewMark['kind'] = 'placed', name = ''): NewMark {
  return { id: freshId('m'), sourceS, kind, name };
}

/** Puts a mark at the playhead's step. */
export function markHere(): void {
  const sourceS = sourceHere();
  if (sourceS === null) return;
  const mark = newMarkAt(sourceS);
  if (editTiming((timing, context) => placeMark(timing, context, mark), { label: 'mark placed' })) paceView.setState({ picked: mark.id, panel: 'retime' });
}

/** Holds the playhead's pose for one more step; pressed again, for another one. */
export function holdHere(): void {
  const sourceS = sourceHere();
  const { plan } = session.getState();
  if (sourceS === null || plan === null) return;
  const held = plan.holds[Math.min(plan.stepCount - 1, playhead.getState().step)] ?? plan.on;
  const mark = newMarkAt(sourceS, 'start', 'hold');
  const endId = `${mark.id}-end`;
  editTiming((timing, context) => {
    const started = timing.marks.find((one, k) => timing.marks[k + 1]?.sourceS === one.sourceS && Math.abs(one.sourceS - sourceS) < 1e-9);
    if (started === undefined) return insertPause(timing, context, mark, endId, held);
    const end = timing.marks[timing.marks.indexOf(started) + 1]!;
    return lengthenHold(timing, context, end.id, held);
  }, { key: 'hold here', label: 'pose held for another step' });
}

function sourceHere(): number | null {
  const { plan } = session.getState();
  if (plan === null || plan.stepCount === 0) return null;
  return plan.sourceTimeS[Math.min(plan.stepCount - 1, playhead.getState().step)] ?? null;
}
