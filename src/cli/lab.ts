/**
 * The page behind the command line and the browser tests: footage and pose without a window.
 *
 * Everything crosses to Node as plain data. An error becomes data too, because a thrown one would lose its code on the way.
 */
import { type ErrorData, toErrorData } from '../errors.ts';
import type { ClipFacts } from '../footage/facts.ts';
import { openClip } from '../footage/openClip.ts';
import { runPose } from '../pose/poseRun.ts';
import type { ModelSize } from '../pose/track.ts';
import { trackToJson, type TrackJson } from '../pose/trackJson.ts';

/** ClipFacts with plain arrays. */
export type FactsData = Omit<ClipFacts, 'timesS'> & { readonly timesS: readonly number[] };

export type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: ErrorData };

export interface PoseRequest {
  readonly url: string;
  readonly name: string;
  readonly model: ModelSize;
  readonly workerCount?: number;
  /** Cancels the run itself once this many frames are done; for tests of cancelling. */
  readonly cancelAfterFrames?: number;
}

export interface PoseAnswer {
  readonly facts: FactsData;
  readonly track: TrackJson;
  readonly elapsedS: number;
  readonly framesPerS: number;
  readonly workers: number;
}

export interface PoseTick {
  readonly doneFrames: number;
  readonly totalFrames: number;
  readonly framesPerS: number;
  readonly remainingS: number;
}

async function answer<T>(work: () => Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (thrown) {
    console.error(thrown);
    return { ok: false, error: toErrorData(thrown) };
  }
}

function factsData(facts: ClipFacts): FactsData {
  return { ...facts, timesS: [...facts.timesS] };
}

const lab = {
  /** Reads a clip's index from an address of this origin. */
  openClip: (url: string, name: string): Promise<Answer<FactsData>> =>
    answer(async () => factsData(await openClip({ kind: 'url', url, name }))),

  /** Poses a whole clip; progress goes to `window.nudgebookTick` where Node has put one. */
  pose: (request: PoseRequest): Promise<Answer<PoseAnswer>> =>
    answer(async () => {
      const source = { kind: 'url', url: request.url, name: request.name } as const;
      const facts = await openClip(source);
      const cancel = new AbortController();
      const { track, stats } = await runPose({
        source,
        facts,
        model: request.model,
        signal: cancel.signal,
        workerCount: request.workerCount,
        onProgress: ({ doneFrames, totalFrames, framesPerS, remainingS }) => {
          void window.nudgebookTick?.({ doneFrames, totalFrames, framesPerS, remainingS });
          if (request.cancelAfterFrames !== undefined && doneFrames >= request.cancelAfterFrames) cancel.abort();
        },
      });
      return {
        facts: factsData(facts),
        track: trackToJson(track),
        elapsedS: stats.elapsedS,
        framesPerS: stats.framesPerS,
        workers: stats.workers,
      };
    }),
};

export type Lab = typeof lab;

declare global {
  interface Window {
    nudgebookLab?: Lab;
    nudgebookTick?: (tick: PoseTick) => Promise<void> | void;
  }
}

window.nudgebookLab = lab;
