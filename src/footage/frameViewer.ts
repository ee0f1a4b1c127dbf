/**
 * The clip's pictures for the screen, frame-exact with the playhead: asked for by index, decoded off the main
 * thread, kept in a bounded store so that stepping to and fro costs nothing.
 */
import { fromErrorData, NudgebookError } from '../errors.ts';
import { BitmapCache } from './bitmapCache.ts';
import type { ClipFacts } from './facts.ts';
import { fitLongSide } from './readFrames.ts';
import { absoluteSource, type ClipSource } from './source.ts';
import type { FromViewerWorker, ToViewerWorker } from './viewerProtocol.ts';

export interface FrameViewer {
  /** The picture of a frame if it is at hand. It belongs to the viewer: draw it now, do not keep or close it. */
  peek(frameIndex: number): ImageBitmap | undefined;
  /**
   * Says what is on the screen and what may be next. The latest wish replaces all earlier ones.
   *
   * @param frameIndex the frame to show now
   * @param aheadFrames frames to have ready, most likely first
   */
  want(frameIndex: number, aheadFrames: readonly number[]): void;
  /** Tells when a picture has come in. Returns how to stop listening. */
  subscribe(listener: (frameIndex: number) => void): () => void;
  /** Ends the worker and frees every picture. */
  close(): void;
}

export interface FrameViewerOptions {
  /** Longest side of a picture, pixels. */
  readonly longSidePx: number;
  /** Most memory for pictures, bytes (4 a pixel). */
  readonly budgetBytes: number;
  /** Told when the clip cannot be shown, or not any further. */
  readonly onFailure?: (error: NudgebookError) => void;
}

const BYTES_PER_PIXEL = 4;

/** Opens a viewer over a clip whose index has been read. */
export function createFrameViewer(source: ClipSource, facts: ClipFacts, options: FrameViewerOptions): FrameViewer {
  const { longSidePx, budgetBytes, onFailure } = options;
  const size = fitLongSide(facts.widthPx, facts.heightPx, longSidePx);
  const pictureBytes = size.widthPx * size.heightPx * BYTES_PER_PIXEL;
  // Wishing for more than fits would push out the very frames that were wished for first.
  const room = Math.max(1, Math.floor(budgetBytes / pictureBytes));
  const cache = new BitmapCache<ImageBitmap>(budgetBytes);
  const listeners = new Set<(frameIndex: number) => void>();
  const worker = new Worker(new URL('./frameViewer.worker.ts', import.meta.url), { type: 'module', name: 'frame viewer' });
  let closed = false;

  const send = (message: ToViewerWorker): void => worker.postMessage(message);
  const fail = (error: NudgebookError): void => { if (!closed) onFailure?.(error); };

  worker.addEventListener('message', ({ data }: MessageEvent<FromViewerWorker>) => {
    if (data.kind === 'failed') {
      fail(fromErrorData(data.error));
    } else if (closed) {
      data.bitmap.close();
    } else {
      cache.set(data.index, data.bitmap, pictureBytes);
      for (const listener of listeners) listener(data.index);
    }
  });
  const broken = (): void => fail(new NudgebookError('internal', 'The picture of the take cannot be shown: its decoder stopped.', 'Reload the page; your book is kept.'));
  worker.addEventListener('error', broken);
  worker.addEventListener('messageerror', broken);

  const { name, timesS, widthPx, heightPx } = facts;
  send({ kind: 'open', source: absoluteSource(source, document.baseURI), clip: { name, timesS, widthPx, heightPx }, longSidePx });

  return {
    peek: (frameIndex) => cache.get(frameIndex),
    want: (frameIndex, aheadFrames) => {
      if (closed) return;
      const near = [...new Set([frameIndex, ...aheadFrames])].slice(0, room);
      // Touched from the least to the most urgent, so that what is on the screen is thrown out last.
      for (let i = near.length - 1; i >= 0; i--) cache.get(near[i] ?? -1);
      send({ kind: 'want', frames: near.filter((index) => !cache.has(index)) });
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => { listeners.delete(listener); };
    },
    close: () => {
      if (closed) return;
      closed = true;
      worker.terminate();
      listeners.clear();
      cache.clear();
    },
  };
}
