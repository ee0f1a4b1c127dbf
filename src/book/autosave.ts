/**
 * Saves the book soon after every edit, one save at a time, the latest book always last.
 *
 * The first unsaved edit starts the wait and later ones do not prolong it, so that even during a long drag the book is
 * saved every `delayMs`. The app calls `flush()` when the page is hidden (`visibilitychange`, `pagehide`).
 */
import { fromErrorData, NudgebookError, toErrorData } from '../errors.ts';
import type { Book } from './document.ts';
import { StorageError } from './storageError.ts';

export const AUTOSAVE_DELAY_MS = 250;

export type AutosaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'pending' }
  /** The book is unsaved; the next edit or `flush()` tries again. */
  | { readonly kind: 'failed'; readonly error: NudgebookError }
  /** Another window saved since. Nothing is saved from here until `takeOver()`, or `giveWay()` lets this book go. */
  | { readonly kind: 'another-window'; readonly error: NudgebookError };

/** Timers, given in so that tests own the time. */
export interface Timers {
  set(run: () => void, delayMs: number): unknown;
  clear(handle: unknown): void;
}

export interface AutosaveOptions {
  readonly save: (book: Book) => Promise<void>;
  /** Makes the next save pass after `another-window`: `storage.takeOver`. */
  readonly takeOver?: () => Promise<void>;
  readonly delayMs?: number;
  /** Called at every change of state, not at creation; it starts as `saved`. */
  readonly onState?: (state: AutosaveState) => void;
  readonly timers?: Timers;
}

export interface Autosave {
  readonly state: AutosaveState;
  /** There is a new book to save. */
  changed(book: Book): void;
  /** Saves what is unsaved now and resolves when that is done or has failed (see the state it gives); it never rejects. */
  flush(): Promise<AutosaveState>;
  /** After `another-window`: this window's book wins. Gives the state as {@link flush} does. */
  takeOver(): Promise<AutosaveState>;
  /** After `another-window` or a failure: this window's unsaved book is let go; the app then loads the stored one. */
  giveWay(): void;
  /** Saves what is unsaved and ends; `changed` is refused afterwards. */
  close(): Promise<AutosaveState>;
}

const PAGE_TIMERS: Timers = {
  set: (run, delayMs) => setTimeout(run, delayMs),
  clear: (handle) => clearTimeout(handle as ReturnType<typeof setTimeout>),
};

export function createAutosave({ save, takeOver, delayMs = AUTOSAVE_DELAY_MS, onState, timers = PAGE_TIMERS }: AutosaveOptions): Autosave {
  let state: AutosaveState = { kind: 'saved' };
  let unsaved: Book | null = null;
  /** The book of the latest attempt. */
  let tried: Book | null = null;
  let timer: { readonly handle: unknown } | null = null;
  let running: Promise<void> | null = null;
  let closed = false;

  function setState(next: AutosaveState): void {
    if (next.kind === state.kind && !('error' in next)) return;
    state = next;
    onState?.(next);
  }

  function stopTimer(): void {
    if (timer !== null) timers.clear(timer.handle);
    timer = null;
  }

  function startTimer(): void {
    timer ??= {
      handle: timers.set(() => {
        timer = null;
        start();
      }, delayMs),
    };
  }

  /** Begins a save of the unsaved book if none is under way; what comes in meanwhile is saved after it. */
  function start(): void {
    if (running !== null || unsaved === null || state.kind === 'another-window') return;
    const book = unsaved;
    tried = book;
    running = attempt(() => save(book)).then((error) => {
      running = null;
      settle(book, error);
    });
  }

  function settle(book: Book, error: NudgebookError | null): void {
    if (error === null && unsaved === book) unsaved = null;
    if (unsaved === null) {
      // Saved, or let go by giveWay() meanwhile, when a failure no longer concerns anybody.
      setState({ kind: 'saved' });
    } else if (error instanceof StorageError && error.reason === 'another-window') {
      setState({ kind: 'another-window', error });
    } else {
      if (error !== null) setState({ kind: 'failed', error });
      if (unsaved !== book) startTimer();
    }
  }

  async function flush(): Promise<AutosaveState> {
    for (;;) {
      stopTimer();
      start();
      if (running === null) return state;
      await running;
      // A book that came in during the save needs one of its own, unless another flush has begun it, which is then
      // waited for; one that failed is not tried for ever.
      if (unsaved === null || (running === null && unsaved === tried)) return state;
    }
  }

  return {
    get state() {
      return state;
    },
    changed(book) {
      if (closed) throw new NudgebookError('internal', 'The book was changed after its saving had ended.', 'Save the book to a file and reload the page.');
      unsaved = book;
      if (state.kind === 'another-window') return;
      setState({ kind: 'pending' });
      if (running === null) startTimer();
    },
    flush,
    async takeOver() {
      const error = takeOver === undefined ? null : await attempt(takeOver);
      if (error !== null) setState({ kind: 'failed', error });
      else setState({ kind: unsaved === null ? 'saved' : 'pending' });
      return error === null ? flush() : state;
    },
    giveWay() {
      stopTimer();
      unsaved = null;
      if (running === null) setState({ kind: 'saved' });
    },
    close() {
      closed = true;
      return flush();
    },
  };
}

/** Runs a job; its error, as one of ours, or `null`. */
async function attempt(job: () => Promise<void>): Promise<NudgebookError | null> {
  try {
    await job();
    return null;
  } catch (thrown) {
    return thrown instanceof NudgebookError ? thrown : fromErrorData(toErrorData(thrown));
  }
}
