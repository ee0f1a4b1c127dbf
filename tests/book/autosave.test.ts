import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AUTOSAVE_DELAY_MS, createAutosave, type Autosave, type Timers } from '../../src/book/autosave.ts';
import { newBook, type Book } from '../../src/book/document.ts';
import { createStorage } from '../../src/book/storage.ts';
import { StorageError } from '../../src/book/storageError.ts';
import { memoryStore } from './memoryStore.ts';

function titled(title: string): Book {
  return { ...newBook(), title };
}

/** Timers whose time stands still until it is told to go on. */
function handTimers(): Timers & { passMs(ms: number): void; readonly waiting: number } {
  let nowMs = 0;
  let nextHandle = 1;
  const due = new Map<number, { readonly atMs: number; readonly run: () => void }>();
  return {
    set(run, delayMs) {
      due.set(nextHandle, { atMs: nowMs + delayMs, run });
      return nextHandle++;
    },
    clear: (handle) => void due.delete(handle as number),
    passMs(ms) {
      nowMs += ms;
      for (const [handle, { atMs, run }] of [...due]) {
        if (atMs > nowMs || !due.delete(handle)) continue;
        run();
      }
    },
    get waiting() {
      return due.size;
    },
  };
}

/** Saves that end when the test says so. */
function handSaves() {
  const begun: { readonly title: string; readonly end: (error?: unknown) => void }[] = [];
  const saved: string[] = [];
  let underWay = 0;
  let mostUnderWay = 0;
  return {
    begun,
    saved,
    get mostUnderWay() {
      return mostUnderWay;
    },
    save: (book: Book): Promise<void> => {
      underWay += 1;
      mostUnderWay = Math.max(mostUnderWay, underWay);
      return new Promise((resolve, reject) => {
        begun.push({
          title: book.title,
          end: (error) => {
            underWay -= 1;
            if (error === undefined) {
              saved.push(book.title);
              resolve();
            } else reject(error);
          },
        });
      });
    },
  };
}

/** Lets promises that are settled run on. */
async function settle(): Promise<void> {
  for (let i = 0; i < 20; i += 1) await Promise.resolve();
}

function setUp(): { autosave: Autosave; timers: ReturnType<typeof handTimers>; saves: ReturnType<typeof handSaves>; states: string[] } {
  const timers = handTimers();
  const saves = handSaves();
  const states: string[] = [];
  const autosave = createAutosave({ save: saves.save, timers, onState: (state) => states.push(state.kind) });
  return { autosave, timers, saves, states };
}

describe('autosave', () => {
  test('saves the latest book once, 250 ms after the first edit', async () => {
    const { autosave, timers, saves, states } = setUp();
    autosave.changed(titled('a'));
    timers.passMs(AUTOSAVE_DELAY_MS - 1);
    autosave.changed(titled('b'));
    expect(saves.begun.length).toBe(0);
    timers.passMs(1);
    expect(saves.begun.map((save) => save.title)).toEqual(['b']);
    expect(autosave.state.kind).toBe('pending');
    saves.begun[0]?.end();
    await settle();
    expect(autosave.state.kind).toBe('saved');
    expect(states).toEqual(['pending', 'saved']);
    expect(timers.waiting).toBe(0);
  });

  test('a drag without a pause is saved on the way, not only at its end', async () => {
    const { autosave, timers, saves } = setUp();
    for (let i = 0; i < 100; i += 1) {
      autosave.changed(titled(`${i}`));
      timers.passMs(16);
      saves.begun.at(-1)?.end();
      await settle();
    }
    expect(saves.saved.length).toBeGreaterThanOrEqual(5);
  });

  test('an edit during a save is saved after it, and the state stays pending between', async () => {
    const { autosave, timers, saves, states } = setUp();
    autosave.changed(titled('a'));
    timers.passMs(250);
    autosave.changed(titled('b'));
    timers.passMs(1000);
    expect(saves.begun.length).toBe(1);
    saves.begun[0]?.end();
    await settle();
    expect(autosave.state.kind).toBe('pending');
    timers.passMs(250);
    saves.begun[1]?.end();
    await settle();
    expect(saves.saved).toEqual(['a', 'b']);
    expect(states).toEqual(['pending', 'saved']);
  });

  test('flush begins the save before it returns: the page may be gone afterwards', async () => {
    const { autosave, timers, saves } = setUp();
    autosave.changed(titled('a'));
    const flushed = autosave.flush();
    expect(saves.begun.map((save) => save.title)).toEqual(['a']);
    expect(timers.waiting).toBe(0);
    saves.begun[0]?.end();
    expect(await flushed).toEqual({ kind: 'saved' });
  });

  test('flush during a save waits for it and saves what came in since', async () => {
    const { autosave, timers, saves } = setUp();
    autosave.changed(titled('a'));
    timers.passMs(250);
    autosave.changed(titled('b'));
    const flushed = autosave.flush();
    saves.begun[0]?.end();
    await settle();
    expect(saves.begun.length).toBe(2);
    saves.begun[1]?.end();
    expect((await flushed).kind).toBe('saved');
    expect(saves.saved).toEqual(['a', 'b']);
  });

  test('flush with nothing to save is done at once', async () => {
    const { autosave, saves } = setUp();
    expect((await autosave.flush()).kind).toBe('saved');
    expect(saves.begun.length).toBe(0);
  });

  test('a failure is a state with its error, the book stays unsaved, and flush tries it again', async () => {
    const { autosave, timers, saves, states } = setUp();
    autosave.changed(titled('a'));
    timers.passMs(250);
    const full = new StorageError('quota', 'full', 'save to a file');
    saves.begun[0]?.end(full);
    await settle();
    expect(autosave.state).toEqual({ kind: 'failed', error: full });
    const again = autosave.flush();
    saves.begun[1]?.end();
    expect((await again).kind).toBe('saved');
    expect(saves.saved).toEqual(['a']);
    expect(states).toEqual(['pending', 'failed', 'saved']);
  });

  test('an error that is not ours becomes one that can be shown', async () => {
    const { autosave, saves } = setUp();
    autosave.changed(titled('a'));
    const flushed = autosave.flush();
    saves.begun[0]?.end(new TypeError('oops'));
    const state = await flushed;
    expect(state.kind).toBe('failed');
    expect('error' in state && state.error.message).toContain('oops');
  });

  test('a save that throws at once is a failure too', async () => {
    const autosave = createAutosave({
      save: () => {
        throw new Error('at once');
      },
      timers: handTimers(),
    });
    autosave.changed(titled('a'));
    expect((await autosave.flush()).kind).toBe('failed');
  });

  test('an edit during a save that fails is tried by itself', async () => {
    const { autosave, timers, saves } = setUp();
    autosave.changed(titled('a'));
    timers.passMs(250);
    autosave.changed(titled('b'));
    saves.begun[0]?.end(new Error('once'));
    await settle();
    timers.passMs(250);
    saves.begun[1]?.end();
    await settle();
    expect(saves.saved).toEqual(['b']);
    expect(autosave.state.kind).toBe('saved');
  });

  test('close saves what is unsaved; an edit after it is not taken silently', async () => {
    const { autosave, saves } = setUp();
    autosave.changed(titled('a'));
    const closed = autosave.close();
    saves.begun[0]?.end();
    expect((await closed).kind).toBe('saved');
    expect(saves.saved).toEqual(['a']);
    expect(() => autosave.changed(titled('b'))).toThrow('after its saving had ended');
  });

  test('whatever happens, saves never overlap, keep their order, and a last good flush leaves the latest book saved', async () => {
    const action = fc.constantFrom('change', 'change', 'wait', 'end', 'fail', 'flush');
    await fc.assert(
      fc.asyncProperty(fc.array(action, { maxLength: 50 }), async (actions) => {
        const { autosave, timers, saves } = setUp();
        let latest = -1;
        let ended = 0;
        const endOne = (error?: unknown) => {
          if (ended < saves.begun.length) saves.begun[ended++]?.end(error);
        };
        for (const [i, what] of actions.entries()) {
          if (what === 'change') autosave.changed(titled(`${(latest = i)}`));
          if (what === 'wait') timers.passMs(200);
          if (what === 'end') endOne();
          if (what === 'fail') endOne(new Error('no'));
          if (what === 'flush') void autosave.flush();
          await settle();
          if (autosave.state.kind === 'saved' && latest >= 0) expect(saves.saved.at(-1)).toBe(`${latest}`);
        }
        const flushed = autosave.flush();
        for (let i = 0; i < 10; i += 1) {
          endOne();
          await settle();
        }
        expect((await flushed).kind).toBe('saved');
        expect(timers.waiting).toBe(0);
        expect(saves.mostUnderWay).toBeLessThanOrEqual(1);
        const order = saves.saved.map(Number);
        expect(order).toEqual([...order].sort((a, b) => a - b));
        if (latest >= 0) expect(saves.saved.at(-1)).toBe(`${latest}`);
      }),
      { seed: 20266, numRuns: 300 },
    );
  });
});

describe('autosave over storage, two windows', () => {
  async function twoWindows() {
    const store = memoryStore();
    const open = async () => {
      const storage = createStorage(store, () => 0);
      await storage.loadBook();
      const states: string[] = [];
      const autosave = createAutosave({ save: storage.saveBook, takeOver: storage.takeOver, timers: handTimers(), onState: (state) => states.push(state.kind) });
      return { storage, autosave, states };
    };
    const [here, there] = [await open(), await open()];
    there.autosave.changed(titled('there'));
    await there.autosave.flush();
    here.autosave.changed(titled('here'));
    await here.autosave.flush();
    return { store, here, there };
  }

  test('the window that fell behind says so and saves no more, edits included', async () => {
    const { store, here } = await twoWindows();
    expect(here.autosave.state.kind).toBe('another-window');
    here.autosave.changed(titled('here 2'));
    expect((await here.autosave.flush()).kind).toBe('another-window');
    expect(here.states).toEqual(['pending', 'another-window']);
    expect((await createStorage(store, () => 0).loadBook())?.title).toBe('there');
  });

  test('taking over saves this window’s latest book and keeps the other’s aside', async () => {
    const { here, there } = await twoWindows();
    here.autosave.changed(titled('here 2'));
    expect((await here.autosave.takeOver()).kind).toBe('saved');
    expect((await here.storage.loadBook())?.title).toBe('here 2');
    expect((await here.storage.listAside()).map((aside) => (aside.book as Book).title)).toEqual(['there']);
    there.autosave.changed(titled('there 2'));
    expect((await there.autosave.flush()).kind).toBe('another-window');
  });

  test('giving way lets this window’s book go; after a load it saves on', async () => {
    const { here } = await twoWindows();
    here.autosave.giveWay();
    expect(here.autosave.state.kind).toBe('saved');
    expect((await here.storage.loadBook())?.title).toBe('there');
    here.autosave.changed(titled('on from there'));
    expect((await here.autosave.flush()).kind).toBe('saved');
  });

  test('a take-over that fails is a failure, and can be tried again', async () => {
    const { store, here } = await twoWindows();
    store.failWith = new DOMException('full', 'QuotaExceededError');
    expect((await here.autosave.takeOver()).kind).toBe('failed');
    store.failWith = undefined;
    expect((await here.autosave.takeOver()).kind).toBe('saved');
  });
});
