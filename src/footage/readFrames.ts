/**
 * Decodes a run of frames and draws each one upright into one reused canvas.
 *
 * At most a few decoded frames exist at a time, whatever the length of the clip, and every one is closed. A
 * frame that the decoder never delivers is handed out as missing: a run is never silently short.
 */
import type { VideoSample } from 'mediabunny';
import type { ClipFacts } from './facts.ts';
import { failure } from './failures.ts';
import { nearestFrame } from './frameAt.ts';
import type { OpenTrack } from './openTrack.ts';
import { FramePainter } from './paintFrame.ts';

/** How many decoded frames were taken from the decoder and how many were given back; equal once a run is over. */
export interface FrameCounter {
  opened: number;
  closed: number;
}

export type ReadFrame =
  /** The canvas is the reader's own and holds this frame until the next one is asked for. */
  | { readonly kind: 'frame'; readonly index: number; readonly canvas: OffscreenCanvas }
  | { readonly kind: 'missing'; readonly index: number };

export interface ReadOptions {
  /** First frame wanted, index into the facts' timestamps. */
  readonly first: number;
  /** One past the last frame wanted. */
  readonly end: number;
  /** Longest side of the canvas, pixels; a smaller frame is not enlarged. */
  readonly longSidePx: number;
  /**
   * True where the pixels are read by a program rather than shown: the canvas then stays in main memory. On two cores
   * without a GPU the pose engine took 80 instead of 115 ms a frame while the machine was busy, and about the same when it was not.
   */
  readonly inMainMemory: boolean;
  readonly counter: FrameCounter;
}

/** What the reader needs to know of the clip. */
export type FrameTable = Pick<ClipFacts, 'name' | 'timesS' | 'widthPx' | 'heightPx'>;

/**
 * Size of a frame drawn with its longest side at most so long; whole pixels, at least 1.
 */
export function fitLongSide(widthPx: number, heightPx: number, longSidePx: number): { widthPx: number; heightPx: number } {
  const scale = Math.min(1, longSidePx / Math.max(widthPx, heightPx));
  return { widthPx: Math.max(1, Math.round(widthPx * scale)), heightPx: Math.max(1, Math.round(heightPx * scale)) };
}

/**
 * Yields every frame of `first ≤ index < end`, in order, each exactly once.
 *
 * Leaving the loop early closes what is held and stops the decoder.
 *
 * @throws NudgebookError `decode-failed` where the decoder gives up
 */
export async function* readFrames(open: OpenTrack, clip: FrameTable, options: ReadOptions): AsyncGenerator<ReadFrame, void, void> {
  const { first, end, longSidePx, inMainMemory, counter } = options;
  const { timesS } = clip;
  const { VideoSampleSink } = await import('mediabunny');
  const size = fitLongSide(clip.widthPx, clip.heightPx, longSidePx);
  const canvas = new OffscreenCanvas(size.widthPx, size.heightPx);
  const context = canvas.getContext('2d', { alpha: false, willReadFrequently: inMainMemory });
  if (!context) throw failure.decodeFailed(clip.name, timesS[first] ?? 0, 'no 2D canvas');
  context.imageSmoothingQuality = 'medium';
  const painter = inMainMemory ? new FramePainter(context, size.widthPx, size.heightPx) : undefined;

  let next = first;
  const samples = new VideoSampleSink(open.track).samples(insideFrame(timesS, first), end < timesS.length ? insideFrame(timesS, end - 1) : undefined);
  try {
    for (;;) {
      const taken = await samples.next().catch((cause: unknown) => {
        throw failure.decodeFailed(clip.name, timesS[next] ?? 0, cause);
      });
      if (taken.done) break;
      counter.opened += 1;
      const sample: VideoSample = taken.value;
      let index: number;
      try {
        index = nearestFrame(timesS, sample.timestamp);
        // Lead-in before the clip's start, and a second frame at the same moment, are not in the table.
        if (index < next || index >= end || sample.timestamp < 0) continue;
        if (painter) await painter.paint(sample);
        else sample.draw(context, 0, 0, size.widthPx, size.heightPx);
      } finally {
        // Given back before the consumer works on the canvas, so that the decoder goes on meanwhile.
        sample.close();
        counter.closed += 1;
      }
      for (; next < index; next++) yield { kind: 'missing', index: next };
      next = index + 1;
      yield { kind: 'frame', index, canvas };
      if (next >= end) break;
    }
  } finally {
    await samples.return();
  }
  for (; next < end; next++) yield { kind: 'missing', index: next };
}

/** A moment well inside a frame's time on display, so that rounding of timestamps cannot pick its neighbour. */
function insideFrame(timesS: Float64Array, index: number): number {
  const at = timesS[index] ?? 0;
  const after = timesS[index + 1];
  return after === undefined ? at + 1e-6 : at + (after - at) / 4;
}
