/**
 * What the frame viewer and its worker say to each other.
 */
import type { ErrorData } from '../errors.ts';
import type { FrameTable } from './readFrames.ts';
import type { ClipSource } from './source.ts';

export type ToViewerWorker =
  | { readonly kind: 'open'; readonly source: ClipSource; readonly clip: FrameTable; readonly longSidePx: number }
  /** Takes the place of every earlier wish. Most urgent first. */
  | { readonly kind: 'want'; readonly frames: readonly number[] };

export type FromViewerWorker =
  | { readonly kind: 'picture'; readonly index: number; readonly bitmap: ImageBitmap }
  | { readonly kind: 'failed'; readonly error: ErrorData };
