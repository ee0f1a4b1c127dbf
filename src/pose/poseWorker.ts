/**
 * A pose worker: opens the clip for itself, decodes the chunks it is given and finds the person in each frame.
 */
import { toErrorData } from '../errors.ts';
import { type OpenTrack, openTrack } from '../footage/openTrack.ts';
import { type FrameCounter, type FrameTable, type ReadFrame, readFrames } from '../footage/readFrames.ts';
import { workerPort } from '../footage/workerPort.ts';
import type { Chunk } from './chunks.ts';
import { createLandmarker, ENGINE_LONG_SIDE_PX, type Landmarker } from './landmarker.ts';
import type { FromPoseWorker, PosedFrame, ToPoseWorker } from './protocol.ts';
import { quietEngine } from './quietEngine.ts';
import { allowSameOriginOnly, type TalkingScope } from './sameOriginOnly.ts';

// Before anything of the engine is loaded.
allowSameOriginOnly(globalThis as unknown as TalkingScope);
quietEngine(console);

const port = workerPort<ToPoseWorker, FromPoseWorker>();
const counter: FrameCounter = { opened: 0, closed: 0 };

interface Session {
  readonly open: OpenTrack;
  readonly clip: FrameTable;
  readonly landmarker: Landmarker;
}

let session: Session | undefined;
/** Kept from chunk to chunk: a chunk that follows the last one is decoded without seeking. */
let reader: AsyncGenerator<ReadFrame, void, void> | undefined;
let next = -1;

async function start(message: Extract<ToPoseWorker, { kind: 'start' }>): Promise<void> {
  const [open, landmarker] = await Promise.all([openTrack(message.source), createLandmarker(message.assetsUrl, message.model)]);
  session = { open, clip: message.clip, landmarker };
  port.post({ kind: 'ready' });
}

function pose(read: ReadFrame, landmarker: Landmarker): PosedFrame {
  if (read.kind === 'missing') return { kind: 'undecoded', index: read.index };
  const values = landmarker.find(read.canvas);
  return values ? { kind: 'found', index: read.index, values } : { kind: 'nobody', index: read.index };
}

async function poseChunk({ first, end }: Chunk): Promise<void> {
  if (!session) throw new Error('a chunk came before the clip was open');
  const { open, clip, landmarker } = session;
  if (!reader || next !== first) {
    await reader?.return();
    reader = readFrames(open, clip, { first, end: clip.timesS.length, longSidePx: ENGINE_LONG_SIDE_PX, inMainMemory: true, counter });
  }
  for (let index = first; index < end; index++) {
    const read = await reader.next();
    if (read.done) throw new Error(`the reader ended at frame ${index}`);
    const frame = pose(read.value, landmarker);
    port.post({ kind: 'posed', frame }, frame.kind === 'found' ? [frame.values.buffer as ArrayBuffer] : []);
  }
  next = end;
  port.post({ kind: 'chunk-done', opened: counter.opened, closed: counter.closed });
}

port.onMessage((message) => {
  const done = message.kind === 'start' ? start(message) : poseChunk(message.chunk);
  done.catch((error: unknown) => port.post({ kind: 'failed', error: toErrorData(error) }));
});
