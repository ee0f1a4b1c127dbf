/** The book knows its take, but the footage is not here: it is never stored, only linked. */
import type { ReactElement } from 'react';
import { askAndRelink } from '../../state/files.ts';
import { attempt } from '../../state/problems.ts';
import { useBook, useSession } from '../../state/use.ts';

export function FootageGone(): ReactElement | null {
  const name = useBook((b) => b.take?.name);
  const address = useBook((b) => b.take?.address ?? null);
  const track = useSession((s) => s.track);
  // A bundled clip comes back by itself.
  if (address !== null && track !== null) return null;
  return (
    <div className="notice">
      <p>
        <strong>The footage itself isn’t kept.</strong> Choose {name ?? 'the file'} again to see it
        {track === null ? ' and to have it posed.' : '; steps, charts and sheet work without it.'}
      </p>
      <button type="button" onClick={() => attempt(askAndRelink)}>Choose the file</button>
    </div>
  );
}
