/** Says aloud what happens out of sight: progress in tenths, what was opened or saved, what went wrong. */
import type { ReactElement } from 'react';
import { useSession } from '../state/use.ts';

export function LiveRegion(): ReactElement {
  const said = useSession((s) => s.said);
  const tenths = useSession((s) => (s.job?.kind === 'posing' && s.job.total > 0 ? Math.floor((10 * s.job.done) / s.job.total) : null));
  return (
    <div className="unseen" role="status" aria-live="polite">
      {tenths === null || tenths === 0 ? said : `${tenths * 10} percent of the frames posed`}
    </div>
  );
}
