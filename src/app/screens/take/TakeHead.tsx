/** Above the picture: which clip this is, and either the work under way or the frame that is shown. */
import { type ReactElement, useEffect, useRef } from 'react';
import { figure } from '../../../charts/figures.ts';
import { Key } from '../../fields/Key.tsx';
import { frameAtPlayhead } from '../../media/frameAtPlayhead.ts';
import { runCommand } from '../../state/commands.ts';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { frameTimes } from '../../state/shownFrame.ts';
import { session } from '../../state/session.ts';
import { useBook, useSession } from '../../state/use.ts';
import { JobBar } from './JobBar.tsx';

export function TakeHead(): ReactElement {
  const name = useBook((b) => b.take?.name);
  const busy = useSession((s) => s.job !== null);
  return (
    <div className="take-head">
      <h1>{name ?? 'Take'}</h1>
      {busy ? <JobBar /> : name === undefined ? null : <FrameLine />}
    </div>
  );
}

/** The frame on show by number and time, and the way to its neighbours. */
function FrameLine(): ReactElement {
  const words = useRef<HTMLSpanElement>(null);
  const footage = useSession((s) => s.footage);
  const track = useSession((s) => s.track);
  const plan = useSession((s) => s.plan);
  useEffect(
    () =>
      paintWithPlayhead((at) => {
        const shown = frameAtPlayhead(frameTimes(), session.getState().plan, at);
        if (words.current !== null) {
          words.current.textContent = shown === undefined ? 'no frames yet' : `frame ${shown.frame + 1} of ${shown.frames}, ${figure(shown.timeS, 3)} s in the take`;
        }
      }),
    [footage, track, plan],
  );
  const none = footage === null && track === null;
  return (
    <div className="frame-line">
      <button type="button" disabled={none} onClick={() => runCommand('frameBack')}><Key of="frameBack" /> back</button>
      <button type="button" disabled={none} onClick={() => runCommand('frameOn')}>on <Key of="frameOn" /></button>
      <span ref={words} />
    </div>
  );
}
