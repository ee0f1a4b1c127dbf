// Frames of a stage into a WebM file with VP9.
import { BufferTarget, CanvasSource, Output, Quality, WebMOutputFormat } from 'mediabunny';
import { FPS, frameCount, frameTime, type Clip } from '../clip.ts';
import type { Stage } from './stage.ts';

/** The encoded file. A key frame every second keeps seeking quick. */
export async function encodeClip(clip: Clip, stage: Stage, onFrame: (frame: number) => void): Promise<Uint8Array> {
  const target = new BufferTarget();
  const output = new Output({ format: new WebMOutputFormat(), target });
  const source = new CanvasSource(stage.canvas, {
    codec: 'vp9',
    quality: new Quality({ bitrate: clip.bitsPerSecond, bitrateMode: 'variable' }),
    keyFrameInterval: 1,
    latencyMode: 'quality',
  });
  output.addVideoTrack(source, { frameRate: FPS });
  await output.start();
  for (let frame = 0; frame < frameCount(clip); frame++) {
    stage.draw(frame);
    await source.add(frameTime(frame), 1 / FPS);
    onFrame(frame);
  }
  await output.finalize();
  if (target.buffer === null) throw new Error('the encoder gave nothing');
  return new Uint8Array(target.buffer);
}
