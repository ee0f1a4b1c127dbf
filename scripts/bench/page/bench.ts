/**
 * The page of the benchmarks: the app's own code, driven from Node. It is built into generated/bench and is no part of the app.
 */
import type { ClipFacts } from '../../../src/footage/facts.ts';
import { openClip } from '../../../src/footage/openClip.ts';
import type { ClipSource } from '../../../src/footage/source.ts';
import type { ModelSize } from '../../../src/pose/track.ts';
import { timePlans, type PlanTimes } from '../planRebuild.ts';
import { syntheticTrack } from '../syntheticTrack.ts';
import { bareLoop, type BareResult } from './bareLoop.ts';
import { wholeRun, type WholeResult } from './wholeRun.ts';

let clip: { readonly source: ClipSource; readonly facts: ClipFacts } | undefined;

function opened(): NonNullable<typeof clip> {
  if (!clip) throw new Error('no clip has been opened');
  return clip;
}

const bench = {
  /** @returns frames of the clip and how many workers a run takes by itself */
  open: async (url: string): Promise<{ frames: number; widthPx: number; heightPx: number; cores: number }> => {
    const source = { kind: 'url', url: new URL(url, document.baseURI).href, name: url } as const;
    const facts = await openClip(source);
    clip = { source, facts };
    return { frames: facts.timesS.length, widthPx: facts.widthPx, heightPx: facts.heightPx, cores: navigator.hardwareConcurrency };
  },
  whole: (model: ModelSize, workers: number | undefined): Promise<WholeResult> => wholeRun(opened().source, opened().facts, model, workers),
  bare: (model: ModelSize, workers: number, keep: number, rounds: number): Promise<BareResult> =>
    bareLoop(opened().source, opened().facts, model, workers, keep, rounds),
  plans: (durationS: number, fps: number): PlanTimes => timePlans(syntheticTrack(durationS, fps), () => performance.now()),
};

declare global {
  interface Window {
    nudgebookBench?: typeof bench;
  }
}

window.nudgebookBench = bench;
