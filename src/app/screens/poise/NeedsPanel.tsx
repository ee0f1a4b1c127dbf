/** What has to hold the puppet, and how it stays up in the air. */
import type { ReactElement } from 'react';
import { figure, jointWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { goToStep } from '../../state/commands.ts';

export function NeedsPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { hardware, flights } = plan.balance;
  return (
    <section className="panel" aria-label="Hardware">
      {hardware.length === 0 ? <p className="hint">No step needs a tie-down, as far as that can be told.</p> : (
        <table className="keys">
          <caption>Steps that need a tie-down</caption>
          <thead><tr><th scope="col">foot</th><th scope="col">steps</th><th scope="col">worst</th><th scope="col">tipping, N·mm</th><th scope="col">must hold, N</th></tr></thead>
          <tbody>
            {hardware.map(({ foot, fromStep, toStep, worstStep, tippingNmm, mostNmm, holdN }) => (
              <tr key={`${foot}${fromStep}`}>
                <td>{foot === null ? 'a rig' : jointWords(foot)}</td>
                <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{fromStep + 1}–{toStep + 1}</button></td>
                <td><button type="button" className="small" onClick={() => goToStep(worstStep)}>{worstStep + 1}</button></td>
                <td>{figure(tippingNmm, 1)} to {figure(mostNmm, 1)}</td>
                <td>{figure(holdN, 1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {hardware.length > 0 && <p className="hint">The first figure is for the margin as it is, the second for one error farther out; the pull balances the second.</p>}
      <p className="hint caution">These forces are estimates for a puppet that nobody touches: a hand that sets a joint pushes far harder. Take a tie-down that holds several times as much. Rigging over people or hot lamps follows local codes and is the work of a qualified rigger. Whoever acts out a pose on one leg or a fall needs a clear, soft floor and somebody beside them.</p>
      {flights.length === 0 ? <p className="hint">Nothing leaves the floor in this plan.</p> : (
        <table className="keys">
          <caption>In the air</caption>
          <thead><tr><th scope="col">what</th><th scope="col">steps</th><th scope="col">aloft, s</th><th scope="col">free fall, s</th><th scope="col">off its arc, mm</th></tr></thead>
          <tbody>
            {flights.map(({ kind, fromStep, toStep, aloftS, aloftErrorS, ballisticS, reads, offMm }) => (
              <tr key={fromStep}>
                <td>{kind}, {reads}</td>
                <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{fromStep + 1}–{toStep + 1}</button></td>
                <td>{figure(aloftS, 2)} ± {figure(aloftErrorS, 2)}</td>
                <td>{figure(ballisticS, 2)}</td>
                <td>{figure(offMm, 1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}
