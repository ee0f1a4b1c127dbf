/**
 * What a page's main thread does in a while, task by task, as the browser's own trace tells it. Tasks below the 50 ms from
 * which the browser calls one long are seen as well.
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

interface TraceEvent {
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

/**
 * Traces what the page does while `work` runs.
 *
 * @returns its tasks, longest work first
 */
export async function traceMainThread(browser: Browser, page: Page, work: () => Promise<void>): Promise<readonly MainThreadTask[]> {
  await browser.startTracing(page, { categories: ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'toplevel', '__metadata'] });
  let trace: Buffer;
  try {
    await work();
  } finally {
    trace = await browser.stopTracing();
  }
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { readonly traceEvents: readonly TraceEvent[] };
  const { pid, tid } = mainThreadOf(traceEvents);
  const own = traceEvents.filter((e) => e.ph === 'X' && e.pid === pid && e.tid === tid && e.dur !== undefined);
  return own
    .filter((e) => e.name === TASK)
    .map((task) => {
      const inside = own
        .filter((e) => e.ts >= task.ts && e.ts + (e.dur ?? 0) <= task.ts + (task.dur ?? 0) && !WRAPPERS.test(e.name))
        .sort((a, b) => (b.dur ?? 0) - (a.dur ?? 0));
      return {
        wallMs: (task.dur ?? 0) / 1000,
        workMs: (task.tdur ?? task.dur ?? 0) / 1000,
        codeMs: Math.max(0, ...inside.filter((e) => CODE.has(e.name)).map((e) => (e.tdur ?? e.dur ?? 0) / 1000)),
        mostly: inside.slice(0, 6).map((e) => `${e.name} ${((e.dur ?? 0) / 1000).toFixed(1)}`).join(', '),
      };
    })
    .sort((a, b) => b.workMs - a.workMs);
}
