/**
 * The page of the rig (see `rig.ts`): gives tests hold of parts that the built app does not show.
 */
import { fromErrorData, toErrorData } from '../../../src/errors.ts';
import { createFrameViewer } from '../../../src/footage/frameViewer.ts';
import { openClip } from '../../../src/footage/openClip.ts';
import { openTrack } from '../../../src/footage/openTrack.ts';
import { readFrames } from '../../../src/footage/readFrames.ts';
import type { ClipSource } from '../../../src/footage/source.ts';
import { type PoseStats, runPose } from '../../../src/pose/poseRun.ts';

const sourceOf = (url: string): ClipSource => ({ kind: 'url', url, name: url.slice(url.lastIndexOf('/') + 1) });

export interface ReadReport {
  readonly read: readonly string[];
  readonly opened: number;
  readonly closed: number;
}

export interface CancelReport {
  readonly code: string;
  readonly done: number;
  readonly msToReject: number;
  readonly callsAfter: number;
}

const rig = {
  /** Reads frames first ≤ index < end, leaving early after so many. */
  async read(url: string, first: number, end: number, leaveAfter = Infinity): Promise<ReadReport> {
    const source = sourceOf(url);
    const facts = await openClip(source);
    const open = await openTrack(source);
    const counter = { opened: 0, closed: 0 };
    const read: string[] = [];
    for await (const frame of readFrames(open, facts, { first, end: Math.min(end, facts.timesS.length), longSidePx: 64, inMainMemory: true, counter })) {
      read.push(`${frame.kind} ${frame.index}`);
      if (read.length >= leaveAfter) break;
    }
    open.close();
    return { read, ...counter };
  },

  /** Red levels of one frame as drawn for the engine at full size, row by row. */
  async pixels(url: string, index: number): Promise<{ width: number; height: number; data: number[] }> {
    const source = sourceOf(url);
    const facts = await openClip(source);
    const open = await openTrack(source);
    try {
      for await (const frame of readFrames(open, facts, { first: index, end: index + 1, longSidePx: 10_000, inMainMemory: true, counter: { opened: 0, closed: 0 } })) {
        if (frame.kind === 'missing') break;
        const { width, height } = frame.canvas;
        return { width, height, data: [...frame.canvas.getContext('2d')!.getImageData(0, 0, width, height).data.filter((_, i) => i % 4 === 0)] };
      }
      throw new Error('no such frame');
    } finally {
      open.close();
    }
  },

  /** The same with the facts of a whole clip and the bytes of a spoiled one: what a decoder meets that the index did not tell. */
  async readSpoiled(url: string, spoiledUrl: string): Promise<ReadReport & { error: string }> {
    const facts = await openClip(sourceOf(url));
    const open = await openTrack(sourceOf(spoiledUrl));
    const counter = { opened: 0, closed: 0 };
    const read: string[] = [];
    let error = '';
    try {
      for await (const frame of readFrames(open, facts, { first: 0, end: facts.timesS.length, longSidePx: 64, inMainMemory: true, counter })) {
        read.push(`${frame.kind} ${frame.index}`);
      }
    } catch (thrown) {
      error = toErrorData(thrown).code;
    } finally {
      open.close();
    }
    return { read, ...counter, error };
  },

  /** Walks a viewer over frames, waiting for each; gives the order in which pictures came and their colours in the middle. */
  async view(url: string, steps: readonly { readonly show: number; readonly ahead: readonly number[] }[], budgetBytes: number): Promise<{ came: number[]; middles: number[][]; held: number[] }> {
    const source = sourceOf(url);
    const facts = await openClip(source);
    const came: number[] = [];
    let fail: (error: Error) => void = () => undefined;
    const viewer = createFrameViewer(source, facts, { longSidePx: 160, budgetBytes, onFailure: (error) => fail(error) });
    const middles: number[][] = [];
    const context = new OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true })!;
    viewer.subscribe((index) => came.push(index));
    for (const { show, ahead } of steps) {
      viewer.want(show, ahead);
      await new Promise<void>((resolve, reject) => {
        fail = reject;
        const ready = (): boolean => viewer.peek(show) !== undefined;
        if (ready()) {
          resolve();
          return;
        }
        const stop = viewer.subscribe(() => {
          if (!ready()) return;
          stop();
          resolve();
        });
      });
      const picture = viewer.peek(show)!;
      context.drawImage(picture, picture.width / 2, picture.height / 2, 1, 1, 0, 0, 1, 1);
      middles.push([...context.getImageData(0, 0, 1, 1).data]);
    }
    await new Promise((resolve) => setTimeout(resolve, 500));
    const held = facts.timesS.length > 0 ? [...facts.timesS.keys()].filter((i) => viewer.peek(i) !== undefined) : [];
    viewer.close();
    return { came, middles, held };
  },

  /** Poses and gives only the numbers about the run. */
  async poseStats(url: string): Promise<PoseStats & { calls: number; changed: number[]; shortestGapMs: number }> {
    const source = sourceOf(url);
    const changed: number[] = [];
    const calledMs: number[] = [];
    const { stats } = await runPose({
      source, facts: await openClip(source), model: 'lite', workerCount: 2,
      onProgress: (progress) => {
        changed.push(...progress.changed);
        calledMs.push(performance.now());
      },
    });
    // The last call comes at the end, whenever that is.
    const gaps = calledMs.slice(1, -1).map((t, i) => t - (calledMs[i] ?? 0));
    return { ...stats, calls: calledMs.length, changed, shortestGapMs: Math.min(...gaps) };
  },

  /** Cancels in the middle of a run. */
  async cancel(url: string): Promise<CancelReport> {
    const source = sourceOf(url);
    const facts = await openClip(source);
    const control = new AbortController();
    let abortedMs = 0;
    let done = 0;
    let callsAfter = 0;
    const code = await runPose({
      source, facts, model: 'lite', workerCount: 2, signal: control.signal,
      onProgress: (progress) => {
        if (abortedMs > 0) {
          callsAfter += 1;
        } else if (progress.doneFrames >= 5) {
          done = progress.doneFrames;
          abortedMs = performance.now();
          control.abort();
        }
      },
    }).then(() => 'finished', (error: unknown) => fromErrorData(toErrorData(error)).code);
    const msToReject = performance.now() - abortedMs;
    await new Promise((resolve) => setTimeout(resolve, 500));
    return { code, done, msToReject, callsAfter };
  },
};

export type Rig = typeof rig;

declare global {
  interface Window {
    nudgebookRig?: Rig;
  }
}

window.nudgebookRig = rig;
