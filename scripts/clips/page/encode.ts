// Frames of a canvas into a WebM file with VP9.
import { BufferTarget, CanvasSource, Output, Quality, WebMOutputFormat } from 'mediabunny';
import { FPS, frameCount, type Clip } from '../clip.ts';
import type { Stage } from './stage.ts';

interface Sequence {
  readonly canvas: HTMLCanvasElement;
  readonly frames: number;
  readonly fps: number;
  readonly bitsPerSecond: number;
  /** Draws a frame onto the canvas. */
  readonly draw: (frame: number) => void;
}

/** The encoded file. A key frame every second keeps seeking quick. */
export async function encodeSequence({ canvas, frames, fps, bitsPerSecond, draw }: Sequence): Promise<Uint8Array> {
  const target = new BufferTarget();
  const output = new Output({ format: new WebMOutputFormat(), target });
  const source = new CanvasSource(canvas, {
    codec: 'vp9',
    quality: new Quality({ bitrate: bitsPerSecond, bitrateMode: 'variable' }),
    keyFrameInterval: 1,
    latencyMode: 'quality',
  });
  output.addVideoTrack(source, { frameRate: fps });
  await output.start();
  for (let frame = 0; frame < frames; frame++) {
    draw(frame);
    await source.add(frame / fps, 1 / fps);
  }
  await output.finalize();
  if (target.buffer === null) throw new Error('the encoder gave nothing');
  return new Uint8Array(target.buffer);
}

/** A clip of the list, encoded. */
export const encodeClip = (clip: Clip, stage: Stage, onFrame: (frame: number) => void): Promise<Uint8Array> => encodeSequence({
  canvas: stage.canvas, frames: frameCount(clip), fps: FPS, bitsPerSecond: clip.bitsPerSecond,
  draw: (frame) => {
    stage.draw(frame);
    onFrame(frame);
  },
});
