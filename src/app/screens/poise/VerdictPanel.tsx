/** The playhead's step in words, and the spans on one leg with their worst steps. */
import { type ReactElement, useEffect, useRef } from 'react';
import { figure, jointWords, signedFigure } from '../../../charts/figures.ts';
import { isFull, verdictPath } from '../../../charts/poise/verdictSigns.ts';
import { type SaidVerdict, verdictsAt } from '../../../charts/poise/verdictWords.ts';
import type { Plan } from '../../../plan/plan.ts';
import { goToStep } from '../../state/commands.ts';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { CorrectPart } from './CorrectPart.tsx';
import { facingDeg } from './facing.ts';
import { Notes } from './NotJudged.tsx';

export function VerdictPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { balance } = plan;
  return (
    <section className="panel" aria-label="Verdict">
      <Said plan={plan} which="stand" title="Would stand" />
      <Said plan={plan} which="move" title="Looks right in motion" />
      <Notes plan={plan} />
      {balance.oneLeg.length === 0 ? (balance.touching.includes(1) ? <p className="hint">No while on one leg was found.</p> : null) : (
        <table className="keys">
          <caption>On one leg</caption>
          <thead><tr><th scope="col">foot</th><th scope="col">steps</th><th scope="col">worst step</th><th scope="col">margin there, mm</th></tr></thead>
          <tbody>
            {balance.oneLeg.map(({ foot, fromStep, toStep, worstStep, worstMm }) => (
              <tr key={`${foot}${fromStep}`}>
                <td>{jointWords(foot)}</td>
                <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{fromStep + 1}–{toStep + 1}</button></td>
                <td><button type="button" className="small" onClick={() => goToStep(worstStep)}>{worstStep + 1}</button></td>
                <td>{signedFigure(worstMm, 1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <CorrectPart plan={plan} />
      <p className="hint">{balance.massG > 0 ? `Puppet ${figure(balance.massG, 0)} g. ` : ''}Inside the edge is +; the error is one sigma, of the pose in the take and of the hand that sets it. Holds: more than the error inside. Falls: more than twice the error outside. Between the two it is marginal: lean it farther in, or tie it down.</p>
    </section>
  );
}

function Said({ plan, which, title }: { readonly plan: Plan; readonly which: 'stand' | 'move'; readonly title: string }): ReactElement {
  const sign = useRef<SVGPathElement>(null);
  const word = useRef<HTMLElement>(null);
  const figures = useRef<HTMLParagraphElement>(null);
  useEffect(() => paintWithPlayhead(({ step }) => {
    const at = Math.min(step, plan.stepCount - 1);
    const said: SaidVerdict = verdictsAt(plan.balance, at, facingDeg(plan, at))[which];
    sign.current?.setAttribute('d', verdictPath(said.verdict, 14, 14, 10));
    sign.current?.setAttribute('class', isFull(said.verdict) ? 'verdict-full' : 'verdict-outline');
    if (word.current !== null) word.current.textContent = said.word;
    if (figures.current !== null) figures.current.textContent = said.figures;
  }), [plan, which]);
  return (
    <div className="said">
      <svg width="28" height="28" aria-hidden="true"><path ref={sign} /></svg>
      <div>
        <h2>{title}</h2>
        <p><strong ref={word} /></p>
        <p ref={figures} className="about" />
      </div>
    </div>
  );
}
