/**
 * What the bench page and its bare workers say to each other.
 */
import type { ClipSource } from '../../../src/footage/source.ts';
import type { FrameTable } from '../../../src/footage/readFrames.ts';
import type { ModelSize } from '../../../src/pose/track.ts';

export type ToBareWorker =
  | {
      readonly kind: 'prepare';
      readonly source: ClipSource;
      readonly clip: FrameTable;
      readonly model: ModelSize;
      readonly assetsUrl: string;
      /** How many frames, spread over the clip, are decoded and kept. */
      readonly keep: number;
    }
  /** Go through the kept frames so many times. */
  | { readonly kind: 'loop'; readonly rounds: number };

export type FromBareWorker =
  | { readonly kind: 'ready' }
  | { readonly kind: 'looped'; readonly frames: number; readonly found: number }
  | { readonly kind: 'failed'; readonly words: string };
