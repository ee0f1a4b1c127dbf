/** What overlaps, who starts first and settles last, and whether head and shoulders go together. */
import { type ReactElement, useMemo } from 'react';
import { figure, signedFigure } from '../../../../charts/figures.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { overlapOf } from '../../../../timing/moments/compareLimbs.ts';
import { goToStep } from '../../../state/commands.ts';
import { groupsOf } from './groups.ts';

export function MovesTable({ plan }: { readonly plan: Plan }): ReactElement {
  const groups = useMemo(() => groupsOf(plan.moments.moves), [plan]);
  const { together, lag, apart } = plan.headAndShoulders;
  const alone = [1, 2].map((kind) => [...apart].filter((one) => one === kind).length);
  return (
    <div className="limb-table">
      <h2>Head and shoulders</h2>
      <p>
        {Number.isNaN(together) ? 'Neither turns about the vertical.' : `They share ${figure(100 * together, 0)} % of their turning; the shoulders come ${lag === null ? 'at a lag that can’t be told' : `${signedFigure(lag.steps, 1)} steps after the head (sure ${figure(lag.confidence, 2)})`}.`}
        {alone[0]! + alone[1]! > 0 ? ` In ${alone[0]} steps the head turns alone, in ${alone[1]} the shoulders.` : ''}
      </p>
      <h2>Moves that overlap</h2>
      {groups.length === 0 ? <p className="hint">No moves were found.</p> : groups.map((group) => (
        <table className="keys" key={group[0]!.startStep}>
          <thead><tr><th scope="col">order</th><th scope="col">limb</th><th scope="col">starts</th><th scope="col">after the first</th><th scope="col">shared</th><th scope="col">settles</th></tr></thead>
          <tbody>
            {group.map((move, k) => {
              const { share, startSpread, settleSpread } = overlapOf(group[0]!, move);
              return (
                <tr key={`${move.of}${move.startStep}`}>
                  <td>{k + 1}</td><td>{LIMB_WORDS[move.of]}</td>
                  <td><button type="button" className="small" onClick={() => goToStep(Math.round(move.startStep))}>{Math.round(move.startStep) + 1}</button></td>
                  <td>{k === 0 ? '–' : signedFigure(startSpread, 1)}</td><td>{k === 0 ? '–' : `${figure(100 * share, 0)} %`}</td><td>{k === 0 ? '–' : signedFigure(settleSpread, 1)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      ))}
      <p className="hint">Steps after the first; shared: steps in which both move over those in which either does; settles: how much later it comes to rest.</p>
    </div>
  );
}
