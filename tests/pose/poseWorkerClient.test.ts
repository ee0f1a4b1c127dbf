import { describe, expect, it } from 'vitest';
import { NudgebookError } from '../../src/errors.ts';
import { PoseWorkerClient, type PoseWorkerLike } from '../../src/pose/poseWorkerClient.ts';
import type { FromPoseWorker, PosedFrame, ToPoseWorker } from '../../src/pose/protocol.ts';

/** A worker that does nothing by itself; the test speaks for it. */
class StillWorker {
  readonly heard: ToPoseWorker[] = [];
  readonly #listeners = new Map<string, (event: Event) => void>();
  ended = 0;

  postMessage(message: ToPoseWorker): void {
    this.heard.push(message);
  }

  terminate(): void {
    this.ended += 1;
  }

  addEventListener(type: string, listener: (event: Event) => void): void {
    this.#listeners.set(type, listener);
  }

  say(message: FromPoseWorker): void {
    this.#listeners.get('message')?.({ data: message } as MessageEvent);
  }

  break(type: 'error' | 'messageerror'): void {
    this.#listeners.get(type)?.({ message: 'out of memory', preventDefault: () => undefined } as unknown as Event);
  }
}

function set(): { worker: StillWorker; client: PoseWorkerClient; frames: PosedFrame[] } {
  const worker = new StillWorker();
  const frames: PosedFrame[] = [];
  return { worker, frames, client: new PoseWorkerClient(worker as unknown as PoseWorkerLike, (frame) => frames.push(frame)) };
}

const CHUNK = { first: 0, end: 8 };
const STOP = new NudgebookError('cancelled', 'stopped', 'again');

describe('a pose worker seen from the page', () => {
  it('keeps its promise when the chunk is done, and hands its frames on', async () => {
    const { worker, client, frames } = set();
    const done = client.pose(CHUNK);
    worker.say({ kind: 'posed', frame: { kind: 'nobody', index: 3 } });
    worker.say({ kind: 'chunk-done', opened: 9, closed: 9 });
    await done;
    expect(worker.heard).toEqual([{ kind: 'chunk', chunk: CHUNK }]);
    expect(frames).toEqual([{ kind: 'nobody', index: 3 }]);
    expect(client.frames).toEqual({ opened: 9, closed: 9 });
  });

  it.each([
    ['a failure it reports', (w: StillWorker) => w.say({ kind: 'failed', error: { code: 'no-webgl', sentence: 's', tip: 't' } }), 'no-webgl'],
    ['an error', (w: StillWorker) => w.break('error'), 'internal'],
    ['an unreadable message', (w: StillWorker) => w.break('messageerror'), 'internal'],
  ])('breaks its promise on %s, once and for all', async (_, fail, code) => {
    const { worker, client } = set();
    const done = client.pose(CHUNK);
    fail(worker);
    await expect(done).rejects.toMatchObject({ code });
    expect(worker.ended).toBe(1);
    await expect(client.pose(CHUNK)).rejects.toMatchObject({ code });
    expect(worker.heard).toHaveLength(1);
  });

  it('breaks its promise when it is ended, and says nothing afterwards', async () => {
    const { worker, client, frames } = set();
    const done = client.pose(CHUNK);
    client.terminate(STOP);
    client.terminate(new NudgebookError('internal', 'too late', ''));
    await expect(done).rejects.toBe(STOP);
    expect(worker.ended).toBe(1);
    worker.say({ kind: 'posed', frame: { kind: 'nobody', index: 0 } });
    expect(frames).toEqual([]);
  });
});
