/** What has to hold the puppet. */
import type { ReactElement } from 'react';
import { figure, jointWords, stepsWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { goToStep } from '../../state/commands.ts';
import { Caution } from './Caution.tsx';
import { isJudged, NotJudged } from './NotJudged.tsx';

export function NeedsPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { hardware } = plan.balance;
  return (
    <section className="panel" aria-label="Hardware">
      {!isJudged(plan) ? <NotJudged plan={plan} /> : hardware.length === 0 ? <p className="hint">No step needs a tie-down, as far as that can be told. Steps that were not judged are hatched on the rows.</p> : (
        <table className="keys">
          <caption>Steps that need a tie-down</caption>
          <thead><tr><th scope="col">foot</th><th scope="col">steps</th><th scope="col">worst</th><th scope="col">tipping, N·mm</th><th scope="col">must hold, N</th></tr></thead>
          <tbody>
            {hardware.map(({ foot, fromStep, toStep, worstStep, tippingNmm, mostNmm, holdN }) => (
              <tr key={`${foot}${fromStep}`}>
                <td>{foot === null ? 'a rig' : jointWords(foot)}</td>
                <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{stepsWords(fromStep, toStep)}</button></td>
                <td><button type="button" className="small" onClick={() => goToStep(worstStep)}>{worstStep + 1}</button></td>
                <td>{figure(tippingNmm, 1)} to {figure(mostNmm, 1)}</td>
                <td>{figure(holdN, 1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {hardware.length > 0 && <p className="hint">The first figure is for the margin as it is, the second for one error farther out; the pull balances the second.</p>}
      <Caution><> Whoever acts out a pose on one leg or a fall needs a clear, soft floor and somebody beside them.</></Caution>
    </section>
  );
}
