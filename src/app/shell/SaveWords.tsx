/** Whether the work is safe, in words; while a take is being posed or fitted, how far that is, since the steps wait for it. */
import type { ReactElement } from 'react';
import { openOtherBook, takeOverBook } from '../state/keeping.ts';
import { attempt } from '../state/problems.ts';
import type { Job } from '../state/session.ts';
import { useBookState, useSession } from '../state/use.ts';

function workWords(job: Job | null): string | null {
  if (job?.kind === 'posing') return `posing, ${Math.floor((100 * job.done) / Math.max(1, job.total))} %`;
  return job?.kind === 'fitting' ? `fitting the body, ${Math.floor(100 * job.fraction)} %` : null;
}

export function SaveWords(): ReactElement {
  const save = useBookState((s) => s.save);
  const ready = useSession((s) => s.ready);
  const work = useSession((s) => workWords(s.job));
  if (work !== null && save.kind !== 'failed' && save.kind !== 'elsewhere') return <a className="save-words" href="#/take">{work}</a>;
  if (!ready) return <span className="save-words">opening…</span>;
  switch (save.kind) {
    case 'saved':
      return <span className="save-words">saved</span>;
    case 'saving':
      return <span className="save-words">saving…</span>;
    case 'failed':
      return <span className="save-words save-failed" title={save.reason}>not saved: {save.reason}</span>;
    case 'elsewhere':
      return (
        <span className="save-words" title="Another window has saved this book since. Taking over puts its version aside.">
          <span className="save-failed">not saved: open in another window</span>
          <button type="button" className="small" onClick={() => attempt(takeOverBook)}>Take over</button>
          <button type="button" className="small" onClick={() => attempt(openOtherBook)}>Use that one</button>
        </span>
      );
  }
}
