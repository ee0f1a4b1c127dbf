/**
 * Times the pose run exactly as the app does it: decode, draw, pose, over the whole clip.
 */
import type { ClipFacts } from '../../../src/footage/facts.ts';
import type { ClipSource } from '../../../src/footage/source.ts';
import { runPose } from '../../../src/pose/poseRun.ts';
import type { ModelSize } from '../../../src/pose/track.ts';

export interface WholeResult {
  /** All frames over the whole time, loading of engine and model included: what a person waits for. */
  readonly framesPerS: number;
  /** From the first posed frames on: comparable with the bare loop, which does not count its loading either. */
  readonly steadyFramesPerS: number;
  readonly elapsedS: number;
  readonly workers: number;
  readonly frames: number;
  readonly missed: number;
}

/** Frames left out at the start of the steady part, for each worker: engine and caches are still cold. */
const COLD_FRAMES = 5;

export async function wholeRun(source: ClipSource, facts: ClipFacts, model: ModelSize, workerCount: number | undefined): Promise<WholeResult> {
  const seen: { atMs: number; done: number }[] = [];
  const { stats } = await runPose({
    source, facts, model, workerCount,
    onProgress: ({ doneFrames }) => { seen.push({ atMs: performance.now(), done: doneFrames }); },
  });
  const last = seen.at(-1)!;
  const first = seen.find(({ done }) => done >= COLD_FRAMES * stats.workers) ?? seen[0]!;
  return {
    framesPerS: stats.framesPerS,
    steadyFramesPerS: ((last.done - first.done) * 1000) / (last.atMs - first.atMs),
    elapsedS: stats.elapsedS,
    workers: stats.workers,
    frames: facts.timesS.length,
    missed: stats.missed,
  };
}
