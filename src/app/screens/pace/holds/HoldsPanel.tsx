/** On ones, twos or mixed: where poses are held for another number of exposures. */
import { type ReactElement, useState } from 'react';
import { STEP_HOLDS, type StepHold } from '../../../../plan/settings.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { onAt } from '../../../../timing/holdPattern.ts';
import { proposeHolds } from '../../../../timing/proposeHolds.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { goToStep } from '../../../state/commands.ts';
import { playhead } from '../../../state/playhead.ts';
import { say } from '../../../state/session.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook, useSetting } from '../../../state/use.ts';

export const HOLD_WORDS: Readonly<Record<StepHold, string>> = { 1: 'ones', 2: 'twos', 3: 'threes', 4: 'fours' };

/** Step (from 0) that begins at or after an exposure. */
function stepOfExposure(plan: Plan, exposure: number): number {
  const at = plan.exposure.findIndex((first) => first >= exposure);
  return at < 0 ? plan.stepCount - 1 : at;
}

export function HoldsPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const spans = useBook((b) => b.timing.holdSpans);
  const on = useSetting('on');
  /** What the last proposal came to, where it changed nothing that could be seen. */
  const [answer, setAnswer] = useState('');
  const fromHere = (hold: StepHold): void => {
    const exposure = plan.exposure[Math.min(plan.stepCount - 1, playhead.getState().step)] ?? 1;
    editTiming((timing) => {
      const before = onAt(on, timing.holdSpans.filter(({ fromExposure }) => fromExposure < exposure), exposure);
      const others = timing.holdSpans.filter(({ fromExposure }) => fromExposure !== exposure);
      const next = before === hold ? others : [...others, { fromExposure: exposure, on: hold }];
      return { ...timing, holdSpans: next.sort((a, b) => a.fromExposure - b.fromExposure) };
    }, { label: `on ${HOLD_WORDS[hold]} from exposure ${exposure}` });
  };
  const propose = (): void => {
    const holdSpans = proposeHolds(plan, on);
    const words = holdSpans.length === 0 ? `Nothing moves quickly enough to leave ${HOLD_WORDS[on]}.` : '';
    setAnswer(words);
    if (words !== '') say(words);
    if (holdSpans.length === 0 && spans.length === 0) return;
    editTiming((timing) => ({ ...timing, holdSpans }), { label: 'hold pattern as proposed' });
  };
  return (
    <section className="panel" aria-label="Holds">
      <p className="hint">Poses are held on {HOLD_WORDS[on]} from the first exposure on; here the pattern can change along the way. The bars beside the exposures on the ladder show it.</p>
      <Choice<StepHold> label="From the playhead’s step on" value={null} options={STEP_HOLDS.map((hold) => ({ value: hold, words: HOLD_WORDS[hold] }))} onChoose={fromHere} />
      {spans.length === 0 ? <p className="hint">No changes yet.</p> : (
        <table className="keys">
          <caption>Changes of the pattern</caption>
          <thead><tr><th scope="col">from exposure</th><th scope="col">step</th><th scope="col">held on</th><th scope="col"><span className="unseen">remove</span></th></tr></thead>
          <tbody>
            {spans.map((span) => (
              <tr key={span.fromExposure}>
                <td>{span.fromExposure}</td>
                <td><button type="button" className="small" title="Go there" onClick={() => goToStep(stepOfExposure(plan, span.fromExposure))}>{stepOfExposure(plan, span.fromExposure) + 1}</button></td>
                <td>{HOLD_WORDS[span.on]}</td>
                <td><button type="button" className="small" aria-label={`Remove the change at exposure ${span.fromExposure}`} onClick={() => editTiming((timing) => ({ ...timing, holdSpans: timing.holdSpans.filter(({ fromExposure }) => fromExposure !== span.fromExposure) }), { label: `hold change at ${span.fromExposure} removed` })}>✕</button></td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className="buttons">
        <button type="button" onClick={propose}>Propose from what moves on screen</button>
        <button type="button" disabled={spans.length === 0} onClick={() => editTiming((timing) => ({ ...timing, holdSpans: [] }), { label: 'hold pattern cleared' })}>Clear</button>
      </div>
      {answer === '' ? null : <p>{answer}</p>}
      <p className="hint">The proposal goes on ones where the largest part of the figure jumps far from pose to pose: on twos every jump is twice as far. It follows a rule of thumb, not a standard; see docs/pace.md.</p>
    </section>
  );
}
