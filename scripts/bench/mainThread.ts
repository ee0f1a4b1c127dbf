/**
 * What a page's main thread does in a while, task by task and frame by frame, as the browser's own trace tells it, and what the
 * graphics make of it. Tasks below the 50 ms from which the browser calls one long are seen as well.
 */
import type { Browser, Page } from 'playwright-core';

export interface MainThreadTask {
  /** From its beginning to its end, ms. */
  readonly wallMs: number;
  /** What the thread itself worked in it, ms: without the time in which other programs had the core. */
  readonly workMs: number;
  /** Of that, the longest piece that is the page's own code, with what it made the browser lay out on the way. */
  readonly codeMs: number;
  /** The longest thing done in it, for whoever looks for what to mend. */
  readonly mostly: string;
}

export interface PageTrace {
  /** Longest work first. */
  readonly tasks: readonly MainThreadTask[];
  /** Work of the thread in each display frame that drew something anew, ms: all tasks from its beginning to that of the frame after it. */
  readonly frameWorkMs: readonly number[];
  /** Times between frames that the graphics really drew, ms. */
  readonly drawnApartMs: readonly number[];
  /** How long the graphics were drawing, or waiting for the cores to, ms. */
  readonly graphicsMs: number;
}

export interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: Readonly<Record<string, unknown>>;
}

const TASK = 'RunTask';
/** A display frame on the page's thread, what is in it where something is drawn anew, and the drawing of it by the graphics. */
const FRAME = 'ProxyMain::BeginMainFrame';
const DRAWS_ANEW = 'ProxyMain::BeginMainFrame::commit';
const DRAWN = 'DirectRenderer::DrawFrame';
const GRAPHICS_THREAD = 'CrGpuMain';
const CODE = new Set(['FunctionCall', 'EvaluateScript', 'FireAnimationFrame', 'TimerFire', 'RunMicrotasks', 'EventDispatch']);
/** Only wrappers of what is looked for. */
const WRAPPERS = /RunTask|^ThreadPool|^SequenceManager|^SimpleWatcher|^Receive|^Connector|^mojo|^BlinkScheduler/i;

/** Thread that the page's own code runs on. The browser's empty tabs have one as well, and it does next to nothing. */
function mainThreadOf(events: readonly TraceEvent[]): { readonly pid: number; readonly tid: number } {
  const threads = events.filter((e) => e.name === 'thread_name' && e.args?.['name'] === 'CrRendererMain');
  const done = (t: TraceEvent): number => events.filter((e) => e.pid === t.pid && e.tid === t.tid).length;
  const busiest = [...threads].sort((a, b) => done(b) - done(a))[0];
  if (busiest === undefined) throw new Error('The trace has no main thread.');
  return busiest;
}

const workMs = ({ dur = 0, tdur = dur }: TraceEvent): number => tdur / 1000;

/** @param own complete events of the page's thread */
export function workOfFrames(own: readonly TraceEvent[]): readonly number[] {
  const beginnings = own.filter(({ name }) => name === FRAME).map(({ ts }) => ts).sort((a, b) => a - b);
  const drawing = own.filter(({ name }) => name === DRAWS_ANEW).map(({ ts }) => ts);
  const frameAt = (ts: number): number => beginnings.findLastIndex((begins) => begins <= ts);
  const work = new Float64Array(beginnings.length);
  for (const task of own) {
    // the task that a frame begins in belongs to it
    const frame = task.name === TASK ? frameAt(task.ts + (task.dur ?? 0)) : -1;
    if (frame >= 0) work[frame]! += workMs(task);
  }
  return [...new Set(drawing.map(frameAt))].flatMap((frame) => (frame < 0 ? [] : [work[frame]!]));
}

function drawnApart(events: readonly TraceEvent[]): readonly number[] {
  const times = events.filter(({ name, ph }) => name === DRAWN && ph === 'X').map(({ ts }) => ts).sort((a, b) => a - b);
  return times.slice(1).map((ts, i) => (ts - times[i]!) / 1000);
}

function graphicsMs(events: readonly TraceEvent[]): number {
  const threads = new Set(events.filter((e) => e.name === 'thread_name' && e.args?.['name'] === GRAPHICS_THREAD).map(({ pid, tid }) => `${pid} ${tid}`));
  return events.filter((e) => e.name === TASK && e.ph === 'X' && threads.has(`${e.pid} ${e.tid}`)).reduce((sum, { dur = 0 }) => sum + dur / 1000, 0);
}

/** Traces what the page does while `work` runs. */
export async function traceMainThread(browser: Browser, page: Page, work: () => Promise<void>): Promise<PageTrace> {
  await browser.startTracing(page, { categories: ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'toplevel', 'benchmark', '__metadata'] });
  let trace: Buffer;
  try {
    await work();
  } finally {
    trace = await browser.stopTracing();
  }
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { readonly traceEvents: readonly TraceEvent[] };
  const { pid, tid } = mainThreadOf(traceEvents);
  const own = traceEvents.filter((e) => e.ph === 'X' && e.pid === pid && e.tid === tid && e.dur !== undefined);
  const tasks = own
    .filter((e) => e.name === TASK)
    .map((task) => {
      const inside = own
        .filter((e) => e.ts >= task.ts && e.ts + (e.dur ?? 0) <= task.ts + (task.dur ?? 0) && !WRAPPERS.test(e.name))
        .sort((a, b) => (b.dur ?? 0) - (a.dur ?? 0));
      return {
        wallMs: (task.dur ?? 0) / 1000,
        workMs: workMs(task),
        codeMs: Math.max(0, ...inside.filter((e) => CODE.has(e.name)).map(workMs)),
        mostly: inside.slice(0, 6).map((e) => `${e.name} ${((e.dur ?? 0) / 1000).toFixed(1)}`).join(', '),
      };
    })
    .sort((a, b) => b.workMs - a.workMs);
  return { tasks, frameWorkMs: workOfFrames(own), drawnApartMs: drawnApart(traceEvents), graphicsMs: graphicsMs(traceEvents) };
}
