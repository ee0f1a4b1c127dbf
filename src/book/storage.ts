/**
 * What the browser keeps: the last book, books set aside, and the tracks of clips.
 *
 * | box    | key                            | value                                              |
 * | books  | revision, counted from 1       | the book; the highest is the last, a few older stay |
 * | aside  | number, counted from 1         | a book that did not open, or whose place another book took; never deleted |
 * | tracks | clip hash/model/pose version   | the track as typed arrays                          |
 *
 * Two windows: every save adds the next revision after the one this window last read or wrote, and only if that number
 * is free. A window that fell behind is therefore refused, and nobody's work is overwritten. One request does it, so a
 * save begun while the page is being hidden still lands.
 */
import { NudgebookError } from '../errors.ts';
import { MODEL_SIZES, type ModelSize, type Track } from '../pose/track.ts';
import { checkTrack } from './checkTrack.ts';
import { parseBook, type Book } from './document.ts';
import { openIdbStore } from './idbStore.ts';
import type { KeyStore } from './keyStore.ts';
import { POSE_VERSION } from './poseVersion.ts';
import { asStorageError, StorageError } from './storageError.ts';
import { ownCopy, trackFromStored } from './storedTrack.ts';

/** How many books before the last are kept in `books`, so that damage to one record is not the end of all. */
export const OLDER_REVISIONS = 5;

export interface TrackKey {
  readonly clipHash: string;
  readonly model: ModelSize;
  readonly poseVersion: string;
}

/** A book that was put aside and why. `book` is as it was stored, unchecked. */
export interface AsideBook {
  readonly number: number;
  readonly reason: 'unreadable-book' | 'another-window' | 'replaced';
  /** Revision it had. */
  readonly revision: number;
  /** When it was put aside, milliseconds since 1970. */
  readonly asideAtMs: number;
  readonly book: unknown;
}

/** Everything rejects with a NudgebookError; those of storage itself are {@link StorageError} with a `reason`. */
export interface BookStorage {
  /** Saves the next revision. Rejects with reason `another-window` when another window saved since; nothing is overwritten then. */
  saveBook(book: Book): Promise<void>;
  /** The last book, or `null`. One that does not open is put aside, and the rejection (reason `unreadable-book`) says so; saving works after that. */
  loadBook(): Promise<Book | null>;
  /** After `another-window`: puts the other window's book aside and lets this window's next save through. */
  takeOver(): Promise<void>;
  /** Puts a book aside whose place another take or book has taken in this window; one that lies there word for word is not doubled. */
  setAside(book: Book): Promise<void>;
  /** Books put aside, oldest first. */
  listAside(): Promise<readonly AsideBook[]>;
  /** @throws NudgebookError `bad-track`, `bad-argument` when the track is of another model size, `storage-failed` */
  saveTrack(clipHash: string, model: ModelSize, track: Track, poseVersion?: string): Promise<void>;
  /** The kept track, or `null`. Rejects with `bad-track` when it is damaged; analysing again replaces it. */
  loadTrack(clipHash: string, model: ModelSize, poseVersion?: string): Promise<Track | null>;
  listTracks(): Promise<readonly TrackKey[]>;
  deleteTrack(clipHash: string, model: ModelSize, poseVersion?: string): Promise<void>;
  /** Waits for saves under way, then lets go of the database. */
  close(): Promise<void>;
}

/**
 * Opens the browser's storage.
 *
 * @throws StorageError reason `unavailable` where the browser gives none
 */
export async function openStorage(): Promise<BookStorage> {
  return createStorage(await openIdbStore(), () => Date.now());
}

/**
 * The logic of {@link openStorage} over any store.
 *
 * @param store where it is kept
 * @param nowMs the clock, milliseconds since 1970
 */
export function createStorage(store: KeyStore, nowMs: () => number): BookStorage {
  /** Revision this window last read or wrote; 0 when it knows of none. */
  let known = 0;
  /** Saves and loads of the book go one after the other, because each depends on `known`. */
  let tail: Promise<unknown> = Promise.resolve();

  function inTurn<T>(doing: string, job: () => Promise<T>): Promise<T> {
    const result = tail.then(job).catch((thrown: unknown): never => {
      throw asStorageError(thrown, doing);
    });
    // The chain itself must go on after a failure; the failure is the caller's, through `result`.
    tail = result.then(
      () => undefined,
      () => undefined,
    );
    return result;
  }

  async function guarded<T>(doing: string, job: () => Promise<T>): Promise<T> {
    try {
      return await job();
    } catch (thrown) {
      throw asStorageError(thrown, doing);
    }
  }

  async function putAside(reason: AsideBook['reason'], revision: number, book: unknown): Promise<void> {
    const entries = await asideBooks();
    const text = JSON.stringify(book);
    if (entries.some((entry) => entry.reason === reason && (reason === 'replaced' ? JSON.stringify(entry.book) === text : entry.revision === revision))) return;
    const value = { reason, revision, asideAtMs: nowMs(), book };
    let number = (entries.at(-1)?.number ?? 0) + 1;
    // Another window may put something aside at the same moment; the next free number is as good.
    for (;;) {
      const { stored, highest } = await store.append('aside', number, value, 0);
      if (stored) return;
      number = Math.max(number, highest) + 1;
    }
  }

  async function asideBooks(): Promise<readonly AsideBook[]> {
    return (await store.entries('aside')).map(({ number, value }) => ({ ...(value as Omit<AsideBook, 'number'>), number }));
  }

  return {
    saveBook: (book) =>
      inTurn('save the book', async () => {
        // Checked here, so that a value that slipped in is told now and not when the book no longer opens.
        const checked = parseBook(book);
        const revision = known + 1;
        const { stored, highest } = await store.append('books', revision, { book: checked, savedAtMs: nowMs() }, revision - 1 - OLDER_REVISIONS);
        if (!stored || highest > revision) throw anotherWindow();
        known = revision;
      }),

    loadBook: () =>
      inTurn('open the last book', async () => {
        const last = await store.latest('books');
        if (last === undefined) {
          known = 0;
          return null;
        }
        const raw = storedBook(last.value);
        try {
          const book = parseBook(raw);
          known = last.number;
          return book;
        } catch (cause) {
          await putAside('unreadable-book', last.number, raw);
          known = last.number;
          throw unreadable(cause);
        }
      }),

    takeOver: () =>
      inTurn('put the other book aside', async () => {
        const last = await store.latest('books');
        if (last !== undefined && last.number !== known) await putAside('another-window', last.number, storedBook(last.value));
        known = last?.number ?? 0;
      }),

    setAside: (book) => inTurn('put the former book aside', () => putAside('replaced', known, parseBook(book))),

    // In turn, so that a book that is just being put aside is on the list.
    listAside: () => inTurn('list the books put aside', asideBooks),

    saveTrack: (clipHash, model, track, poseVersion = POSE_VERSION) =>
      guarded('keep the track', async () => {
        if (track.model !== model) {
          throw new NudgebookError('bad-argument', `A track of the model ${track.model} cannot be kept as ${model}.`, 'Analyse the take with the chosen model.');
        }
        checkTrack(track);
        await store.put('tracks', trackKey({ clipHash, model, poseVersion }), ownCopy(track));
      }),

    loadTrack: (clipHash, model, poseVersion = POSE_VERSION) =>
      guarded('open the kept track', async () => {
        const value = await store.get('tracks', trackKey({ clipHash, model, poseVersion }));
        return value === undefined ? null : trackFromStored(value, model);
      }),

    listTracks: () =>
      guarded('list the kept tracks', async () => {
        const keys = await store.keys('tracks');
        return keys.map(parseTrackKey).filter((key) => key !== null);
      }),

    deleteTrack: (clipHash, model, poseVersion = POSE_VERSION) =>
      guarded('delete the kept track', () => store.delete('tracks', trackKey({ clipHash, model, poseVersion }))),

    close: async () => {
      await tail;
      store.close();
    },
  };
}

function trackKey(key: TrackKey): string {
  return `${key.clipHash}/${key.model}/${key.poseVersion}`;
}

/** `null` for a key no version of ours wrote: a model size that is no longer known cannot be opened by its name either. */
function parseTrackKey(text: string): TrackKey | null {
  const [clipHash, size, ...rest] = text.split('/');
  const model = MODEL_SIZES.find((known) => known === size);
  if (clipHash === undefined || model === undefined) return null;
  return { clipHash, model, poseVersion: rest.join('/') };
}

/** The book inside a stored record; a record of a strange shape is taken as the book itself, so that it is refused and kept whole. */
function storedBook(record: unknown): unknown {
  return typeof record === 'object' && record !== null && 'book' in record ? record.book : record;
}

function anotherWindow(): StorageError {
  return new StorageError(
    'another-window',
    'Another window has saved this book since this one opened it, so this one does not save over it.',
    'Go on in the other window, or take over here: the other window’s book is then put aside, not lost.',
  );
}

function unreadable(cause: unknown): StorageError {
  const why = cause instanceof Error ? ` ${cause.message}` : '';
  const newer = cause instanceof NudgebookError ? ` ${cause.tip}` : '';
  return new StorageError(
    'unreadable-book',
    `The last book does not open.${why}`,
    `It is kept aside in this browser and nothing of it is deleted.${newer}`,
    cause,
  );
}

export type Persistence = 'kept' | 'may-vanish' | 'unknown';

/**
 * Asks the browser not to clear the storage by itself when the disk runs low.
 *
 * @param manager the browser's storage manager; given only by tests
 * @returns `kept` when it agreed, `may-vanish` when it refused, `unknown` where it cannot be asked
 */
export async function askToPersist(
  manager: Pick<StorageManager, 'persist' | 'persisted'> | undefined = globalThis.navigator?.storage,
): Promise<Persistence> {
  if (manager === undefined || typeof manager.persist !== 'function') return 'unknown';
  try {
    return (await manager.persisted()) || (await manager.persist()) ? 'kept' : 'may-vanish';
  } catch {
    // A browser that throws here (an opaque origin) gives no promise either; the answer says so.
    return 'unknown';
  }
}
