/** A screen that has nothing to show yet says what to do next. */
import type { ReactElement } from 'react';
import { Key } from '../../fields/Key.tsx';
import { runCommand } from '../../state/commands.ts';
import { changesBench } from '../../state/session.ts';
import { useSession } from '../../state/use.ts';

export function NoPlan(): ReactElement {
  const busy = useSession((s) => changesBench(s.job));
  return (
    <div className="empty">
      <h2>{busy ? 'The first frames are being posed.' : 'No steps yet.'}</h2>
      <p className="lead">{busy ? 'The steps appear as soon as the performer has been found.' : 'Steps are made from a take. Open a clip, or look at Marla’s.'}</p>
      {busy ? null : (
        <div className="buttons">
          <button type="button" className="main lamp" onClick={() => runCommand('openFile')}>Open a clip <Key of="openFile" /></button>
          <button type="button" className="main" onClick={() => runCommand('openDemo')}>Open Marla’s take <Key of="openDemo" /></button>
        </div>
      )}
    </div>
  );
}
