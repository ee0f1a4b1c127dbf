/**
 * The frame viewer's worker: decodes the frames that are wanted now, most urgent first, and forgets older wishes.
 */
import { toErrorData } from '../errors.ts';
import { type OpenTrack, openTrack } from './openTrack.ts';
import { type FrameCounter, type FrameTable, type ReadFrame, readFrames } from './readFrames.ts';
import { nextStep } from './viewerPlan.ts';
import type { FromViewerWorker, ToViewerWorker } from './viewerProtocol.ts';
import { workerPort } from './workerPort.ts';

const port = workerPort<ToViewerWorker, FromViewerWorker>();
const counter: FrameCounter = { opened: 0, closed: 0 };

interface Clip {
  readonly open: OpenTrack;
  readonly table: FrameTable;
  readonly longSidePx: number;
}

let clip: Clip | undefined;
let wanted: readonly number[] = [];
let reader: AsyncGenerator<ReadFrame, void, void> | undefined;
let next: number | undefined;
let working = false;

async function closeReader(): Promise<void> {
  const old = reader;
  reader = undefined;
  next = undefined;
  await old?.return();
}

/** One step: a jump where needed, then one frame. False when there is nothing to do. */
async function step({ open, table, longSidePx }: Clip): Promise<boolean> {
  const plan = nextStep(wanted, next);
  if (plan.kind === 'idle') return false;
  if (plan.kind === 'jump') {
    await closeReader();
    reader = readFrames(open, table, { first: plan.first, end: table.timesS.length, longSidePx, inMainMemory: false, counter });
    next = plan.first;
  }
  const read = await reader?.next();
  if (!read || read.done) {
    await closeReader();
    return wanted.length > 0;
  }
  const { value } = read;
  next = value.index + 1;
  if (wanted.includes(value.index)) {
    wanted = wanted.filter((index) => index !== value.index);
    if (value.kind === 'frame') {
      const bitmap = value.canvas.transferToImageBitmap();
      port.post({ kind: 'picture', index: value.index, bitmap }, [bitmap]);
    }
  }
  return true;
}

async function work(): Promise<void> {
  if (working || !clip) return;
  working = true;
  try {
    while (await step(clip));
  } catch (error) {
    wanted = [];
    await closeReader();
    port.post({ kind: 'failed', error: toErrorData(error) });
  } finally {
    working = false;
  }
}

async function open(message: Extract<ToViewerWorker, { kind: 'open' }>): Promise<void> {
  try {
    clip = { open: await openTrack(message.source), table: message.clip, longSidePx: message.longSidePx };
  } catch (error) {
    port.post({ kind: 'failed', error: toErrorData(error) });
  }
  await work();
}

port.onMessage((message) => {
  if (message.kind === 'open') {
    void open(message);
    return;
  }
  const last = clip ? clip.table.timesS.length : Infinity;
  wanted = message.frames.filter((index) => index >= 0 && index < last);
  void work();
});
