/** What the page and the worker of the body fit say to each other. One worker makes one fit; to cancel is to end it. */
import type { ErrorData } from '../../errors.ts';
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Track } from '../../pose/track.ts';

export interface ToFitWorker {
  readonly track: Track;
  readonly captureFactor: number;
  readonly corrections: Corrections;
}

export type FromFitWorker =
  /** Share of the work done, 0..1. */
  | { readonly kind: 'progress'; readonly fraction: number }
  | { readonly kind: 'fitted'; readonly body: FittedBody }
  | { readonly kind: 'failed'; readonly error: ErrorData };
