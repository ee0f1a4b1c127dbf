/**
 * The floor that a pose run is held against: the same engine, with the same pictures of the same size, already decoded and
 * drawn, in a plain loop that does nothing else.
 */
import { openTrack } from '../../../src/footage/openTrack.ts';
import { readFrames } from '../../../src/footage/readFrames.ts';
import { workerPort } from '../../../src/footage/workerPort.ts';
import { createLandmarker, ENGINE_LONG_SIDE_PX, type Landmarker } from '../../../src/pose/landmarker.ts';
import { allowSameOriginOnly, type TalkingScope } from '../../../src/pose/sameOriginOnly.ts';
import type { FromBareWorker, ToBareWorker } from './bareProtocol.ts';

allowSameOriginOnly(globalThis as unknown as TalkingScope);

const port = workerPort<ToBareWorker, FromBareWorker>();
let landmarker: Landmarker | undefined;
const pictures: OffscreenCanvas[] = [];

function copyOf(canvas: OffscreenCanvas): OffscreenCanvas {
  const copy = new OffscreenCanvas(canvas.width, canvas.height);
  // As the run's own canvas: in main memory, without transparency.
  const context = copy.getContext('2d', { alpha: false, willReadFrequently: true });
  if (!context) throw new Error('no 2D canvas');
  context.drawImage(canvas, 0, 0);
  return copy;
}

async function prepare({ source, clip, model, assetsUrl, keep }: Extract<ToBareWorker, { kind: 'prepare' }>): Promise<void> {
  const open = await openTrack(source);
  const frames = clip.timesS.length;
  const every = Math.max(1, Math.floor(frames / keep));
  const counter = { opened: 0, closed: 0 };
  for await (const read of readFrames(open, clip, { first: 0, end: frames, longSidePx: ENGINE_LONG_SIDE_PX, inMainMemory: true, counter })) {
    if (read.kind === 'frame' && read.index % every === 0 && pictures.length < keep) pictures.push(copyOf(read.canvas));
  }
  open.close();
  landmarker = await createLandmarker(assetsUrl, model);
  // The first few frames are slower: engine and caches are still cold.
  for (const picture of pictures.slice(0, 5)) landmarker.find(picture);
}

function loop(rounds: number): void {
  if (!landmarker) throw new Error('the loop was asked for before it was prepared');
  let found = 0;
  for (let round = 0; round < rounds; round += 1) {
    for (const picture of pictures) if (landmarker.find(picture)) found += 1;
  }
  port.post({ kind: 'looped', frames: rounds * pictures.length, found });
}

port.onMessage((message) => {
  if (message.kind === 'prepare') {
    prepare(message)
      .then(() => port.post({ kind: 'ready' }))
      .catch((error: unknown) => port.post({ kind: 'failed', words: String(error) }));
    return;
  }
  try {
    loop(message.rounds);
  } catch (error) {
    port.post({ kind: 'failed', words: String(error) });
  }
});
