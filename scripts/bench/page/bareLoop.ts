/**
 * Runs the bare loop in one or several workers at once and times it from the page.
 */
import type { ClipFacts } from '../../../src/footage/facts.ts';
import { absoluteSource, type ClipSource } from '../../../src/footage/source.ts';
import { assetsUrl } from '../../../src/pose/modelFiles.ts';
import type { ModelSize } from '../../../src/pose/track.ts';
import type { FromBareWorker, ToBareWorker } from './bareProtocol.ts';

type Answer<K extends FromBareWorker['kind']> = Extract<FromBareWorker, { kind: K }>;

function ask<K extends 'ready' | 'looped'>(worker: Worker, message: ToBareWorker, answer: K): Promise<Answer<K>> {
  return new Promise((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<FromBareWorker>) => {
      if (data.kind === answer) resolve(data as Answer<K>);
      else reject(new Error(data.kind === 'failed' ? data.words : `unexpected answer ${data.kind}`));
    };
    worker.onerror = (event) => reject(new Error(event.message));
    worker.postMessage(message);
  });
}

export interface BareResult {
  readonly framesPerS: number;
  readonly frames: number;
  readonly found: number;
}

/**
 * @param workers how many loops run side by side, each over its own copy of the frames
 * @param keep frames kept decoded in each worker
 * @param rounds how often each worker goes through them
 */
export async function bareLoop(source: ClipSource, facts: ClipFacts, model: ModelSize, workers: number, keep: number, rounds: number): Promise<BareResult> {
  const { name, timesS, widthPx, heightPx } = facts;
  const pool = Array.from({ length: workers }, () =>
    new Worker(new URL('./bareWorker.ts', import.meta.url), { type: 'module', name: 'bare' }));
  try {
    const prepare: ToBareWorker = {
      kind: 'prepare', source: absoluteSource(source, document.baseURI), clip: { name, timesS, widthPx, heightPx }, model, assetsUrl: assetsUrl(), keep,
    };
    await Promise.all(pool.map((worker) => ask(worker, prepare, 'ready')));
    const startMs = performance.now();
    const done = await Promise.all(pool.map((worker) => ask(worker, { kind: 'loop', rounds }, 'looped')));
    const elapsedS = (performance.now() - startMs) / 1000;
    const frames = done.reduce((sum, one) => sum + one.frames, 0);
    return { framesPerS: frames / elapsedS, frames, found: done.reduce((sum, one) => sum + one.found, 0) };
  } finally {
    pool.forEach((worker) => worker.terminate());
  }
}
