/**
 * What a pose run and its workers say to each other. Both sides import this file and nothing else of each other.
 */
import type { ErrorData } from '../errors.ts';
import type { FrameTable } from '../footage/readFrames.ts';
import type { ClipSource } from '../footage/source.ts';
import type { Chunk } from './chunks.ts';
import type { ModelSize } from './track.ts';

export type ToPoseWorker =
  | {
      readonly kind: 'start';
      readonly source: ClipSource;
      readonly clip: FrameTable;
      readonly model: ModelSize;
      /** Absolute address under which `wasm/` and `models/` are served, with a slash at its end. */
      readonly assetsUrl: string;
    }
  | { readonly kind: 'chunk'; readonly chunk: Chunk };

/** One frame as measured. */
export type PosedFrame =
  /** `values`: see {@link packPose}. */
  | { readonly kind: 'found'; readonly index: number; readonly values: Float32Array }
  | { readonly kind: 'nobody'; readonly index: number }
  /** The decoder never delivered this frame. */
  | { readonly kind: 'undecoded'; readonly index: number };

export type FromPoseWorker =
  | { readonly kind: 'ready' }
  | { readonly kind: 'posed'; readonly frame: PosedFrame }
  /** Frames taken from the decoder and given back, counted since the worker started. */
  | { readonly kind: 'chunk-done'; readonly opened: number; readonly closed: number }
  | { readonly kind: 'failed'; readonly error: ErrorData };
