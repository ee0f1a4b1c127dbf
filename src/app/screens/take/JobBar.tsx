/** Long work under way: how far it is, how fast it goes, how long it takes, and how to stop it. */
import type { ReactElement } from 'react';
import { figure } from '../../../charts/figures.ts';
import { Key } from '../../fields/Key.tsx';
import { stopWork } from '../../media/posing.ts';
import { useSession } from '../../state/use.ts';
import { timeWords } from './timeWords.ts';

export function JobBar(): ReactElement | null {
  const job = useSession((s) => s.job);
  // A correction is worked in while the body before it stays on the screen.
  const again = useSession((s) => s.fit !== null);
  if (job === null) return null;
  if (job.kind === 'opening') {
    return (
      <div className="job">
        <p><strong>Reading {job.name}</strong></p>
        <progress aria-label="Reading the clip" />
        <button type="button" onClick={stopWork}>Cancel <Key of="stopWork" /></button>
      </div>
    );
  }
  if (job.kind === 'fitting') {
    return (
      <div className="job">
        <p>
          <strong>Fitting the body, {Math.floor(100 * job.fraction)} %</strong>
          <span className="job-figures">{again ? 'until then the steps are those of the fit before' : 'until then the angles are read from the landmarks alone'}</span>
        </p>
        <progress aria-label="Fitting the body" value={job.fraction} max={1} />
        <button type="button" onClick={stopWork}>Cancel <Key of="stopWork" /></button>
      </div>
    );
  }
  const started = job.done > 0;
  return (
    <div className="job">
      <p>
        <strong>Posing with {job.model}</strong>
        <span className="job-figures">
          {started
            ? `${job.done} of ${job.total} frames · ${figure(job.framesPerS, 1)} frames per second · ${timeWords(job.remainingS)} left`
            : `${job.total} frames · loading the pose model`}
        </span>
      </p>
      <progress aria-label="Frames posed" value={job.done} max={job.total} />
      <button type="button" onClick={stopWork}>Cancel <Key of="stopWork" /></button>
    </div>
  );
}
