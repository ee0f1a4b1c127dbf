import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOOK_VERSION, newBook, type Book } from '../../src/book/document.ts';
import { POSE_VERSION } from '../../src/book/poseVersion.ts';
import { askToPersist, createStorage, OLDER_REVISIONS, openStorage, type BookStorage } from '../../src/book/storage.ts';
import { StorageError } from '../../src/book/storageError.ts';
import { bytesOf, marlaBook, twoFrameTrack } from './examples.ts';
import { rejectionOf } from './expectError.ts';
import { memoryStore, type MemoryStore } from './memoryStore.ts';

const NOW_MS = 1_700_000_000_000;

function windowOn(store: MemoryStore): BookStorage {
  return createStorage(store, () => NOW_MS);
}

function titled(title: string): Book {
  return { ...newBook(), title };
}

async function reasonOf(job: Promise<unknown>): Promise<string> {
  const error = await rejectionOf(job);
  expect(error.code).toBe('storage-failed');
  expect(error.tip).not.toBe('');
  return error instanceof StorageError ? error.reason : 'no StorageError';
}

describe('the last book', () => {
  test('nothing yet is null; what was saved last comes back, also in the next window', async () => {
    const store = memoryStore();
    const first = windowOn(store);
    expect(await first.loadBook()).toBeNull();
    await first.saveBook(titled('one'));
    await first.saveBook(marlaBook());
    expect(await first.loadBook()).toEqual(marlaBook());
    expect(await windowOn(store).loadBook()).toEqual(marlaBook());
  });

  test('saves begun together are kept in their order', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    await Promise.all(['a', 'b', 'c'].map((title) => storage.saveBook(titled(title))));
    expect((await storage.loadBook())?.title).toBe('c');
  });

  test('one whose place another takes is put aside once, and found again', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    await storage.setAside(marlaBook());
    await storage.setAside({ ...marlaBook(), title: 'longer' });
    await storage.setAside(marlaBook());
    const found = await windowOn(store).listAside();
    expect(found.map(({ reason, book }) => [reason, (book as Book).title])).toEqual([['replaced', marlaBook().title], ['replaced', 'longer']]);
  });

  test('a few older ones stay, the rest is let go', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    for (let i = 1; i <= 20; i += 1) await storage.saveBook(titled(`${i}`));
    expect([...store.boxes.books.keys()]).toEqual([15, 16, 17, 18, 19, 20]);
    expect(store.boxes.books.size).toBe(OLDER_REVISIONS + 1);
  });

  test('a book that would not open is refused at the save, and the next save goes on', async () => {
    const storage = windowOn(memoryStore());
    const wrong = { ...newBook(), settings: { ...newBook().settings, rate: -1 } };
    expect((await rejectionOf(storage.saveBook(wrong))).code).toBe('bad-book');
    await storage.saveBook(titled('next'));
    expect((await storage.loadBook())?.title).toBe('next');
  });

  test.each<[string, unknown, string]>([
    ['of a newer version', { book: { ...marlaBook(), version: BOOK_VERSION + 1, later: true }, savedAtMs: 1 }, 'made by a newer Nudgebook'],
    ['with a wrong value', { book: { ...marlaBook(), model: 'x' }, savedAtMs: 1 }, 'The field model of the book is "x"'],
    ['that is no record', 'garbage', 'A book is an object'],
  ])('one %s is put aside once, stays where it is, and saving goes on', async (_, record, words) => {
    const store = memoryStore();
    store.boxes.books.set(7, structuredClone(record));
    const storage = windowOn(store);
    const error = await rejectionOf(storage.loadBook());
    expect(error).toBeInstanceOf(StorageError);
    expect((error as StorageError).reason).toBe('unreadable-book');
    expect(error.message).toContain(words);
    expect(store.boxes.books.get(7)).toEqual(record);
    await rejectionOf(windowOn(store).loadBook());
    const kept = typeof record === 'object' && record !== null && 'book' in record ? record.book : record;
    expect(await storage.listAside()).toEqual([{ number: 1, reason: 'unreadable-book', revision: 7, asideAtMs: NOW_MS, book: kept }]);
    await storage.saveBook(titled('new'));
    for (let i = 0; i < 20; i += 1) await storage.saveBook(titled(`${i}`));
    expect((await storage.loadBook())?.title).toBe('19');
    expect(store.boxes.books.has(7)).toBe(false);
    expect((await storage.listAside()).map((aside) => aside.book)).toEqual([kept]);
  });

  test('one that cannot be put aside for want of room is not saved over', async () => {
    const store = memoryStore();
    store.boxes.books.set(1, 'garbage');
    const storage = windowOn(store);
    store.failWith = new DOMException('full', 'QuotaExceededError');
    expect(await reasonOf(storage.loadBook())).toBe('quota');
    store.failWith = undefined;
    expect(await reasonOf(storage.saveBook(titled('over')))).toBe('another-window');
  });
});

describe('two windows', () => {
  async function twoWindows(): Promise<{ store: MemoryStore; here: BookStorage; there: BookStorage }> {
    const store = memoryStore();
    const here = windowOn(store);
    await here.saveBook(titled('shared'));
    const there = windowOn(store);
    await there.loadBook();
    return { store, here, there };
  }

  test('a save over another window’s is refused, and that window’s book stands', async () => {
    const { here, there } = await twoWindows();
    await there.saveBook(titled('there'));
    expect(await reasonOf(here.saveBook(titled('here')))).toBe('another-window');
    expect((await there.loadBook())?.title).toBe('there');
    await there.saveBook(titled('there again'));
  });

  test('a window that slept through so many saves that its number is free again is refused all the same', async () => {
    const { store, here, there } = await twoWindows();
    for (let i = 0; i < 30; i += 1) await there.saveBook(titled(`there ${i}`));
    expect(store.boxes.books.has(2)).toBe(false);
    expect(await reasonOf(here.saveBook(titled('here')))).toBe('another-window');
    expect((await windowOn(store).loadBook())?.title).toBe('there 29');
  });

  test('a window that never loaded does not save over what is there', async () => {
    const { store } = await twoWindows();
    expect(await reasonOf(windowOn(store).saveBook(titled('blind')))).toBe('another-window');
  });

  test('taking over: this window’s next save passes, the other’s book is aside, the other window is refused', async () => {
    const { here, there } = await twoWindows();
    await there.saveBook(titled('there'));
    await rejectionOf(here.saveBook(titled('here')));
    await here.takeOver();
    await here.saveBook(titled('here'));
    expect(await reasonOf(there.saveBook(titled('there 2')))).toBe('another-window');
    expect((await here.loadBook())?.title).toBe('here');
    expect(await here.listAside()).toEqual([{ number: 1, reason: 'another-window', revision: 2, asideAtMs: NOW_MS, book: titled('there') }]);
  });

  test('taking over with nobody else there puts nothing aside', async () => {
    const { here, store } = await twoWindows();
    await here.takeOver();
    await here.saveBook(titled('on'));
    expect(store.boxes.aside.size).toBe(0);
  });

  test('giving way: after a load the window saves on', async () => {
    const { here, there } = await twoWindows();
    await there.saveBook(titled('there'));
    await rejectionOf(here.saveBook(titled('here')));
    expect((await here.loadBook())?.title).toBe('there');
    await here.saveBook(titled('here'));
    expect((await here.loadBook())?.title).toBe('here');
  });

  test('two windows that both begin with nothing: the second save is refused', async () => {
    const store = memoryStore();
    const [a, b] = [windowOn(store), windowOn(store)];
    expect([await a.loadBook(), await b.loadBook()]).toEqual([null, null]);
    await a.saveBook(titled('a'));
    expect(await reasonOf(b.saveBook(titled('b')))).toBe('another-window');
  });

  test('whatever three windows do, a book is never replaced by a window that had not seen it', async () => {
    const action = fc.record({ who: fc.nat({ max: 2 }), what: fc.constantFrom('save', 'save', 'save', 'load', 'takeOver') });
    let refused = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(action, { maxLength: 60 }), async (actions) => {
        const store = memoryStore();
        const windows = [windowOn(store), windowOn(store), windowOn(store)];
        let last: string | null = null;
        const seen: (string | null)[] = [null, null, null];
        for (const [i, { who, what }] of actions.entries()) {
          const it = windows[who];
          if (it === undefined) continue;
          if (what === 'load') seen[who] = (await it.loadBook())?.title ?? null;
          else if (what === 'takeOver') {
            await it.takeOver();
            const aside = (await it.listAside()).map((entry) => (entry.book as Book).title);
            if (seen[who] !== last) expect(aside).toContain(last);
            seen[who] = last;
          } else {
            const title = `${i}`;
            const saved = await it.saveBook(titled(title)).then(() => true, () => false);
            expect(saved).toBe(seen[who] === last);
            if (saved) seen[who] = last = title;
            else refused += 1;
          }
          expect((await windowOn(store).loadBook())?.title ?? null).toBe(last);
        }
      }),
      { seed: 20265, numRuns: 150 },
    );
    expect(refused).toBeGreaterThan(50);
  });
});

describe('tracks', () => {
  test('come back bit for bit under clip, model and measurement, and nowhere else', async () => {
    const storage = windowOn(memoryStore());
    await storage.saveTrack('aa11', 'heavy', twoFrameTrack());
    const back = await storage.loadTrack('aa11', 'heavy');
    expect(back).not.toBeNull();
    expect(bytesOf(back ?? twoFrameTrack())).toEqual(bytesOf(twoFrameTrack()));
    expect(await storage.loadTrack('aa11', 'full')).toBeNull();
    expect(await storage.loadTrack('bb22', 'heavy')).toBeNull();
    expect(await storage.loadTrack('aa11', 'heavy', 'an older one')).toBeNull();
  });

  test('are listed with their measurement, and deleted one at a time', async () => {
    const storage = windowOn(memoryStore());
    await storage.saveTrack('aa11', 'heavy', twoFrameTrack());
    await storage.saveTrack('aa11', 'heavy', twoFrameTrack(), 'an/older/one');
    await storage.saveTrack('aa11', 'lite', { ...twoFrameTrack(), model: 'lite' });
    expect(await storage.listTracks()).toEqual([
      { clipHash: 'aa11', model: 'heavy', poseVersion: POSE_VERSION },
      { clipHash: 'aa11', model: 'heavy', poseVersion: 'an/older/one' },
      { clipHash: 'aa11', model: 'lite', poseVersion: POSE_VERSION },
    ]);
    await storage.deleteTrack('aa11', 'heavy');
    expect((await storage.listTracks()).map((key) => key.poseVersion)).toEqual(['an/older/one', POSE_VERSION]);
  });

  test('are kept without the rest of the buffer they are a window into', async () => {
    const store = memoryStore();
    const wide = new Float32Array(100_000);
    const track = twoFrameTrack();
    wide.set(track.world, 500);
    await windowOn(store).saveTrack('aa11', 'heavy', { ...track, world: wide.subarray(500, 500 + track.world.length) });
    const kept = store.boxes.tracks.get(`aa11/heavy/${POSE_VERSION}`) as { world: Float32Array };
    expect(kept.world.buffer.byteLength).toBe(track.world.byteLength);
  });

  test('damaged ones are refused, on the way in and out', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    const wrongs: readonly unknown[] = [
      5, null, {}, { ...twoFrameTrack(), world: [1, 2] }, { ...twoFrameTrack(), found: new Uint8Array(1) }, { ...twoFrameTrack(), model: 'lite' }, { ...twoFrameTrack(), widthPx: 0.5 },
    ];
    for (const wrong of wrongs) {
      store.boxes.tracks.set(`aa11/heavy/${POSE_VERSION}`, wrong);
      expect((await rejectionOf(storage.loadTrack('aa11', 'heavy'))).code).toBe('bad-track');
    }
    expect((await rejectionOf(storage.saveTrack('aa11', 'heavy', { ...twoFrameTrack(), found: new Uint8Array(1) }))).code).toBe('bad-track');
    expect((await rejectionOf(storage.saveTrack('aa11', 'lite', twoFrameTrack()))).code).toBe('bad-argument');
  });
});

describe('failures', () => {
  test('no room left is a state of its own, for books and tracks, and says what to do', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    store.failWith = new DOMException('full', 'QuotaExceededError');
    expect(await reasonOf(storage.saveBook(titled('x')))).toBe('quota');
    expect(await reasonOf(storage.saveTrack('aa11', 'heavy', twoFrameTrack()))).toBe('quota');
    expect((await rejectionOf(storage.saveBook(titled('x')))).tip).toContain('Save the book to a file');
    store.failWith = undefined;
    await storage.saveBook(titled('x'));
    expect((await storage.loadBook())?.title).toBe('x');
  });

  test('anything else keeps the browser’s own words', async () => {
    const store = memoryStore();
    store.failWith = new Error('disk on fire');
    const error = await rejectionOf(windowOn(store).saveBook(titled('x')));
    expect(error.message).toBe('The browser could not save the book: disk on fire');
    expect(error.cause).toBe(store.failWith);
  });

  test('close waits for the save under way', async () => {
    const store = memoryStore();
    const storage = windowOn(store);
    const saving = storage.saveBook(titled('last'));
    await storage.close();
    expect(store.closed).toBe(true);
    expect(store.boxes.books.size).toBe(1);
    await saving;
  });

  test('without IndexedDB (here: Node) the storage is said to be unavailable', async () => {
    expect(await reasonOf(openStorage())).toBe('unavailable');
  });
});

test('askToPersist asks once, and tells all three answers', async () => {
  const manager = (had: boolean, gives: boolean) => ({ persisted: async () => had, persist: async () => gives });
  expect(await askToPersist(manager(true, false))).toBe('kept');
  expect(await askToPersist(manager(false, true))).toBe('kept');
  expect(await askToPersist(manager(false, false))).toBe('may-vanish');
  expect(await askToPersist(undefined)).toBe('unknown');
  expect(await askToPersist({ persisted: () => Promise.reject(new TypeError('opaque origin')), persist: async () => true })).toBe('unknown');
});
