/**
 * From a clip to its track: a pool of workers, each on its own stretch of the clip.
 *
 * Every frame is measured on its own, so the track is the same, bit for bit, however many workers share it.
 */
import { NudgebookError } from '../errors.ts';
import type { ClipFacts } from '../footage/facts.ts';
import { absoluteSource, type ClipSource } from '../footage/source.ts';
import { ChunkQueue, splitIntoChunks } from './chunks.ts';
import { assetsUrl } from './modelFiles.ts';
import { writePose } from './poseValues.ts';
import { PoseWorkerClient, type PoseWorkerLike } from './poseWorkerClient.ts';
import { ProgressMeter } from './progressMeter.ts';
import type { PosedFrame } from './protocol.ts';
import { emptyTrack, type ModelSize, type Track } from './track.ts';

/** More workers than this gain little and cost 150 to 300 MB each. */
export const MOST_WORKERS = 4;
const PROGRESS_EVERY_MS = 100;

export interface PoseProgress {
  readonly doneFrames: number;
  readonly totalFrames: number;
  /** Frames a second over the last few seconds; 0 before the first frame. */
  readonly framesPerS: number;
  /** Estimated time left, seconds; NaN before the first frame. */
  readonly remainingS: number;
  /** The track as it fills; the same object each time. */
  readonly track: Track;
  /** Frames measured since the last call, in the order in which they came in. */
  readonly changed: readonly number[];
}

export interface PoseStats {
  /** From the call to the last frame, loading of engine and model included. */
  readonly elapsedS: number;
  readonly framesPerS: number;
  readonly workers: number;
  /** Frames without a person. */
  readonly missed: number;
  /** Frames that the decoder never delivered; they count as missed too. */
  readonly undecoded: number;
  /** Decoded frames taken and given back over all workers. */
  readonly opened: number;
  readonly closed: number;
}

export interface PoseResult {
  readonly track: Track;
  readonly stats: PoseStats;
}

export interface PoseRun {
  readonly source: ClipSource;
  readonly facts: ClipFacts;
  readonly model: ModelSize;
  /** Aborting ends every worker at once and rejects with `cancelled`. */
  readonly signal?: AbortSignal;
  /** Default: one a core, at most {@link MOST_WORKERS}, never more than there are chunks. */
  readonly workerCount?: number;
  /** Called at most about ten times a second, and once at the end. */
  readonly onProgress?: (progress: PoseProgress) => void;
  /** For tests. */
  readonly makeWorker?: () => PoseWorkerLike;
}

function makePoseWorker(): Worker {
  return new Worker(new URL('./poseWorker.ts', import.meta.url), { type: 'module', name: 'pose' });
}

/**
 * Poses a whole clip.
 *
 * @throws NudgebookError `cancelled`, `no-webgl`, `model-missing`, `decode-failed`, those of opening a clip, `internal`
 */
export async function runPose(run: PoseRun): Promise<PoseResult> {
  const { facts, model, signal, onProgress, makeWorker = makePoseWorker } = run;
  const { name, timesS, widthPx, heightPx, keyFrames } = facts;
  const startedMs = performance.now();
  const track = emptyTrack(model, widthPx, heightPx, timesS);
  const chunks = splitIntoChunks(timesS.length, keyFrames);
  const queue = new ChunkQueue(chunks, keyFrames);
  const workers = Math.max(1, Math.min(run.workerCount ?? Math.min(navigator.hardwareConcurrency, MOST_WORKERS), chunks.length));
  const meter = new ProgressMeter(timesS.length);
  let found = 0;
  let undecoded = 0;
  let changed: number[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;

  const report = (): void => {
    clearTimeout(timer);
    timer = undefined;
    const seen = changed;
    changed = [];
    onProgress?.({ ...meter.at(performance.now() / 1000), track, changed: seen });
  };
  const onFrame = (frame: PosedFrame): void => {
    if (frame.kind === 'found') {
      writePose(track, frame.index, frame.values);
      found += 1;
    }
    if (frame.kind === 'undecoded') undecoded += 1;
    meter.add(performance.now() / 1000);
    changed.push(frame.index);
    timer ??= setTimeout(report, PROGRESS_EVERY_MS);
  };

  if (signal?.aborted) throw cancelled();
  const pool = Array.from({ length: workers }, () => new PoseWorkerClient(makeWorker(), onFrame));
  const endAll = (reason: NudgebookError): void => pool.forEach((worker) => worker.terminate(reason));
  const onAbort = (): void => endAll(cancelled());
  signal?.addEventListener('abort', onAbort);
  const start = {
    kind: 'start',
    source: absoluteSource(run.source, document.baseURI),
    clip: { name, timesS, widthPx, heightPx },
    model,
    assetsUrl: assetsUrl(),
  } as const;
  try {
    await Promise.all(pool.map(async (worker, asker) => {
      await worker.start(start);
      for (let chunk = queue.take(asker); chunk; chunk = queue.take(asker)) await worker.pose(chunk);
    }));
    report();
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', onAbort);
    // Also after success: ending a worker is how its memory is freed. The others' loops stop with the same reason.
    endAll(cancelled());
  }
  const elapsedS = (performance.now() - startedMs) / 1000;
  const sum = (pick: (worker: PoseWorkerClient) => number): number => pool.reduce((n, worker) => n + pick(worker), 0);
  return {
    track,
    stats: {
      elapsedS,
      framesPerS: timesS.length / elapsedS,
      workers,
      missed: timesS.length - found,
      undecoded,
      opened: sum((worker) => worker.frames.opened),
      closed: sum((worker) => worker.frames.closed),
    },
  };
}

function cancelled(): NudgebookError {
  return new NudgebookError('cancelled', 'The pose run was stopped, as asked.', 'Start it again whenever you like; nothing was kept of it.');
}
