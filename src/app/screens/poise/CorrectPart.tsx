/** Corrections: asked for over some steps, looked at, applied or not, taken away. */
import { type ReactElement, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../charts/figures.ts';
import { MEANS, type Means } from '../../../balance/correct/means.ts';
import type { CorrectionResult } from '../../../balance/correct/solveCorrection.ts';
import type { Plan } from '../../../plan/plan.ts';
import { jointWords } from '../../../charts/figures.ts';
import { MeasureField } from '../../fields/MeasureField.tsx';
import { askCorrection } from '../../state/planning.ts';
import { editPoise } from '../../state/poiseEdits.ts';
import { poiseView } from '../../state/poiseView.ts';
import { showProblem } from '../../state/problems.ts';
import { freshId } from '../../state/timingEdits.ts';
import { useBook } from '../../state/use.ts';
import { Caution } from './Caution.tsx';
import { SpanFields, type StepSpan, stepsOfSpan } from './SpanFields.tsx';

const MEANS_WORDS: Readonly<Record<Means, string>> = { pelvis: 'shift the pelvis', spine: 'lean the spine', arms: 'lift an arm' };

export function CorrectPart({ plan }: { readonly plan: Plan }): ReactElement {
  const { corrections, marginMm } = useBook((b) => b.poise);
  const first = plan.balance.oneLeg[0];
  // until steps are typed: the first while on one leg, as the plan has it now
  const [typed, setTyped] = useState<StepSpan | null>(null);
  const span: StepSpan = typed ?? (first === undefined ? [1, plan.stepCount] : [first.fromStep + 1, first.toStep + 1]);
  const beside = useStore(poiseView, (s) => s.besideBefore);
  const [means, setMeans] = useState<readonly Means[]>(MEANS);
  const [asking, setAsking] = useState(false);
  const [answer, setAnswer] = useState<{ readonly plan: Plan; readonly result: CorrectionResult } | null>(null);
  // what was found belongs to the plan it was found for
  const result = answer !== null && answer.plan === plan ? answer.result : null;
  useEffect(() => {
    poiseView.setState(result?.kind === 'found' ? { afterMm: result.afterMm, tried: result.correction } : { afterMm: null, tried: null });
    return () => poiseView.setState({ afterMm: null, tried: null });
  }, [result]);
  const ask = (): void => {
    setAsking(true);
    askCorrection({ id: freshId('c'), fromStep: span[0] - 1, toStep: span[1] - 1, marginMm, means })
      .then((found) => setAnswer({ plan, result: found }))
      .catch(showProblem)
      .finally(() => setAsking(false));
  };
  const apply = (): void => {
    if (result?.kind !== 'found') return;
    editPoise((poise) => ({ ...poise, corrections: [...poise.corrections, result.correction] }), { label: `balance corrected, steps ${span[0]} to ${span[1]}` });
  };
  return (
    <section className="correct" aria-label="Corrections">
      <h2>Bring it into balance</h2>
      <SpanFields plan={plan} span={span} onChange={setTyped} />
      <span className="choice-row means">
        {MEANS.map((one) => (
          <label key={one} className="check"><input type="checkbox" checked={means.includes(one)} onChange={() => setMeans(MEANS.filter((m) => (m === one ? !means.includes(m) : means.includes(m))))} /><span>{MEANS_WORDS[one]}</span></label>
        ))}
      </span>
      <span className="choice-row span-fields">
        <MeasureField label="To a margin of" quantity="length" value={marginMm} min={-50} max={200} step={0.5} onCommit={(v) => v !== null && editPoise((poise) => ({ ...poise, marginMm: v }), { label: `wanted margin ${figure(v, 1)} mm` })} />
        <button type="button" className="lamp" disabled={asking || means.length === 0} onClick={ask}>{asking ? 'Looking …' : 'Find the smallest change'}</button>
      </span>
      {result === null ? null : result.kind === 'found' ? (
        <div className="answer" role="status">
          <p>Found: {figure(result.turnDeg, 0)}° of joint turns at the worst step{result.correction.turns.length > 0 ? `, ${result.correction.turns.map(({ joint }) => jointWords(joint)).join(', ')}` : ''}{result.correction.shift.length > 0 ? ', the pelvis over its foot' : ''}. The margins it leads to stand on the rows as a bold line; the pose it leads to is hatched in the figure.</p>
          <div className="buttons"><button type="button" className="lamp" onClick={apply}>Apply</button><button type="button" onClick={() => setAnswer(null)}>Leave it</button></div>
        </div>
      ) : (
        <div className="answer" role="status">
          <p>{result.sentence}</p>
          {result.kind === 'cannot' ? <Caution /> : null}
        </div>
      )}
      {corrections.length === 0 ? null : (
        <table className="keys">
          <caption>Corrections in the book</caption>
          <thead><tr><th scope="col">applied</th><th scope="col">steps</th><th scope="col">margin, mm</th><th scope="col"><span className="unseen">remove</span></th></tr></thead>
          <tbody>
            {corrections.map((one) => {
              const [from, to] = stepsOfSpan(plan, one.fromS, one.toS);
              return (
                <tr key={one.id}>
                  <td><label className="check"><input type="checkbox" checked={one.applied} aria-label={`Correction of steps ${from} to ${to} applied`} onChange={() => editPoise((poise) => ({ ...poise, corrections: poise.corrections.map((other) => (other.id === one.id ? { ...other, applied: !other.applied } : other)) }), { label: `correction ${one.applied ? 'not ' : ''}applied` })} /></label></td>
                  <td>{from}–{to}</td>
                  <td>{figure(one.marginMm, 1)}</td>
                  <td><button type="button" className="small" aria-label={`Remove the correction of steps ${from} to ${to}`} onClick={() => editPoise((poise) => ({ ...poise, corrections: poise.corrections.filter(({ id }) => id !== one.id) }), { label: 'correction removed' })}>✕</button></td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      {corrections.some(({ applied }) => applied) ? (
        <label className="check"><input type="checkbox" checked={beside} onChange={() => poiseView.setState({ besideBefore: !beside })} /><span>Draw the pose before its correction</span></label>
      ) : null}
    </section>
  );
}
