/** What the puppet can't do, with the steps; a click goes there. */
import { type ReactElement, useMemo } from 'react';
import { jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { pickJoint } from '../../../puppet3d/puppetView.ts';
import { goToStep } from '../../../state/commands.ts';
import { type FlagRun, flagRuns } from './flags.ts';

/** Longer lists say less, not more. */
const MOST = 60;

export function FlagList({ plan }: { readonly plan: Plan }): ReactElement | null {
  const runs = useMemo(() => flagRuns(plan), [plan]);
  if (runs.length === 0) return null;
  const go = (run: FlagRun): void => {
    goToStep(run.first);
    pickJoint(plan.joints[run.joint]?.name ?? null);
  };
  return (
    <details className="flags" open={runs.length <= 6}>
      <summary>Where the puppet can’t follow: {runs.length} {runs.length === 1 ? 'place' : 'places'}</summary>
      <ul>
        {runs.slice(0, MOST).map((run) => (
          <li key={`${run.kind.bit}.${run.joint}.${run.first}`}>
            <button type="button" className="small" onClick={() => go(run)}>
              <b aria-hidden="true">{run.kind.sign}</b> {run.first === run.last ? `step ${run.first + 1}` : `steps ${run.first + 1}–${run.last + 1}`}
            </button>
            <span>{jointWords(plan.joints[run.joint]?.name ?? '')}: {run.kind.words}</span>
          </li>
        ))}
      </ul>
      {runs.length > MOST ? <p className="hint">And {runs.length - MOST} more.</p> : null}
    </details>
  );
}
