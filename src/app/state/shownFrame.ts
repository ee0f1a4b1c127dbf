/** The frame that the playhead shows: of the footage, and of the track that was measured in it. */
import { nearestFrame } from '../../footage/frameAt.ts';
import { SAME_FRAME_S } from '../corrections/edits.ts';
import { frameAtPlayhead, playheadAtFrame } from '../media/frameAtPlayhead.ts';
import { playhead, setPlayhead } from './playhead.ts';
import { session } from './session.ts';

/** Timestamps of the frames that can be stepped through: the footage's own, or the track's where the footage is not here. */
export function frameTimes(): Float64Array {
  const { footage, track } = session.getState();
  return footage?.facts.timesS ?? track?.timesS ?? new Float64Array();
}

/** Frame of the track that is shown, with its own timestamp; `null` where the track has none of that moment. */
export function shownTrackFrame(at = playhead.getState()): { readonly frame: number; readonly timeS: number } | null {
  const { track, plan } = session.getState();
  const shown = frameAtPlayhead(frameTimes(), plan, at);
  if (track === null || shown === undefined) return null;
  const frame = nearestFrame(track.timesS, shown.timeS);
  const timeS = track.timesS[frame] ?? Number.NaN;
  return Math.abs(timeS - shown.timeS) < SAME_FRAME_S ? { frame, timeS } : null;
}

/** Moves the playhead to the frame at a moment of the take. */
export function goToTime(timeS: number): void {
  const timesS = frameTimes();
  if (timesS.length > 0) setPlayhead(playheadAtFrame(timesS, session.getState().plan, nearestFrame(timesS, timeS)));
}
