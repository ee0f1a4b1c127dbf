/**
 * Footage on the bench: opens a clip's pictures for showing, and lets the former ones go.
 */
import type { ClipFacts } from '../../footage/facts.ts';
import type { ClipSource } from '../../footage/source.ts';
import { repaintPlayhead } from '../state/playhead.ts';
import { showProblem } from '../state/problems.ts';
import { session } from '../state/session.ts';

/** Long side of decoded pictures: enough for the largest place they are shown at. */
const PICTURE_LONG_SIDE_PX = 1080;
/** Room for decoded pictures, about 60 of them at full size. */
const PICTURE_BYTES = 192 * 1024 * 1024;

interface KnownClip {
  readonly source: ClipSource;
  readonly facts: ClipFacts;
}

/** Clips opened in this window by hash; a source is a handle, not the bytes. */
const known = new Map<string, KnownClip>();

/** A clip that was opened in this window before. */
export function knownClip(hash: string): KnownClip | undefined {
  return known.get(hash);
}

/** Puts a clip's pictures on the bench in place of what was there. */
export async function showFootage(source: ClipSource, facts: ClipFacts): Promise<void> {
  known.set(facts.hash, { source, facts });
  if (session.getState().footage?.facts.hash === facts.hash) return;
  const { createFrameViewer } = await import('../../footage/frameViewer.ts');
  const viewer = createFrameViewer(source, facts, {
    longSidePx: PICTURE_LONG_SIDE_PX,
    budgetBytes: PICTURE_BYTES,
    onFailure: showProblem,
  });
  clearFootage();
  viewer.subscribe(() => repaintPlayhead());
  session.setState({ footage: { source, facts, viewer } });
}

/** Takes the footage off the bench and frees its pictures. */
export function clearFootage(): void {
  session.getState().footage?.viewer.close();
  session.setState({ footage: null });
}
