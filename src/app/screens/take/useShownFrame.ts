import { useEffect, useState } from 'react';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { shownTrackFrame } from '../../state/shownFrame.ts';
import { useSession } from '../../state/use.ts';

/** The frame of the track that the playhead shows, for panels of words and fields; `null` where there is none. */
export function useShownFrame(): { readonly frame: number; readonly timeS: number } | null {
  const track = useSession((s) => s.track);
  const plan = useSession((s) => s.plan);
  const [shown, setShown] = useState(() => shownTrackFrame());
  useEffect(() => paintWithPlayhead((at) => {
    const now = shownTrackFrame(at);
    setShown((former) => (former?.frame === now?.frame && former?.timeS === now?.timeS ? former : now));
  }), [track, plan]);
  return shown;
}
