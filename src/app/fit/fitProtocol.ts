/**
 * What the page and the worker of the body fit say to each other: one question at a time. The worker keeps the fit of its track, so that the
 * next corrections of the same track are worked into it; to cancel is to end the worker.
 */
import type { ErrorData } from '../../errors.ts';
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Track } from '../../pose/track.ts';

export interface ToFitWorker {
  /** `null`: the track that was sent last. */
  readonly track: Track | null;
  readonly captureFactor: number;
  readonly corrections: Corrections;
}

export type FromFitWorker =
  /** Share of the work done, 0..1. */
  | { readonly kind: 'progress'; readonly fraction: number }
  | { readonly kind: 'fitted'; readonly body: FittedBody }
  | { readonly kind: 'failed'; readonly error: ErrorData };
