/**
 * The boxes of `keyStore.ts` in IndexedDB. Nothing here knows what a book is.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Appended, KeyStore } from './keyStore.ts';
import { asStorageError, storageUnavailable } from './storageError.ts';

const DATABASE = 'nudgebook';
/** Version of the boxes, not of the documents in them. */
const DATABASE_VERSION = 1;

interface Boxes extends DBSchema {
  books: { key: number; value: unknown };
  aside: { key: number; value: unknown };
  tracks: { key: string; value: unknown };
}

type Database = IDBPDatabase<Boxes>;

/**
 * @throws StorageError reason `unavailable` where the browser gives no storage
 */
export async function openIdbStore(): Promise<KeyStore> {
  if (typeof indexedDB === 'undefined') throw storageUnavailable();
  let db: Database | null = null;
  let closed = false;

  async function open(): Promise<Database> {
    const opened = await openDB<Boxes>(DATABASE, DATABASE_VERSION, {
      upgrade(fresh) {
        fresh.createObjectStore('books');
        fresh.createObjectStore('aside');
        fresh.createObjectStore('tracks');
      },
      // A newer Nudgebook in another window wants to change the boxes: let it. The next call here then says so (VersionError).
      blocking() {
        db?.close();
        db = null;
      },
      // The browser cut the connection, e.g. because site data was cleared: the next call opens anew.
      terminated() {
        db = null;
      },
    });
    db = opened;
    return opened;
  }

  /** Runs at once where the database is open, so that a request is issued before the caller goes on. */
  function on<T>(job: (database: Database) => Promise<T>): Promise<T> {
    if (closed) return Promise.reject(new Error('the storage has been closed'));
    return db === null ? open().then(job) : job(db);
  }

  try {
    await open();
  } catch (thrown) {
    if (thrown instanceof DOMException && (thrown.name === 'VersionError' || thrown.name === 'QuotaExceededError')) {
      throw asStorageError(thrown, 'open its storage');
    }
    throw storageUnavailable(thrown);
  }

  return {
    append: (box, number, value, dropUpTo) => on((database) => append(database, box, number, value, dropUpTo)),
    entries: (box) =>
      on(async (database) => {
        const tx = database.transaction(box);
        const [numbers, values] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()]);
        return numbers.map((number, i) => ({ number, value: values[i] }));
      }),
    latest: (box) =>
      on(async (database) => {
        const cursor = await database.transaction(box).store.openCursor(null, 'prev');
        return cursor === null ? undefined : { number: cursor.key, value: cursor.value };
      }),
    put: (box, key, value) =>
      on(async (database) => {
        // The transaction, not the request, is what tells that no room was left.
        const tx = database.transaction(box, 'readwrite');
        await Promise.all([tx.store.put(value, key), tx.done]);
      }),
    get: (box, key) => on((database) => database.get(box, key)),
    delete: (box, key) => on((database) => database.delete(box, key)),
    keys: (box) => on((database) => database.getAllKeys(box)),
    close: () => {
      closed = true;
      db?.close();
      db = null;
    },
  };
}

/**
 * One transaction, committed at once: `add` fails when the number is taken, which is the whole agreement between
 * windows. Nothing has to come back to the page for it to land.
 */
async function append(database: Database, box: 'books' | 'aside', number: number, value: unknown, dropUpTo: number): Promise<Appended> {
  const tx = database.transaction(box, 'readwrite');
  const requests = [
    tx.store.add(value, number),
    tx.store.openKeyCursor(null, 'prev').then((cursor) => cursor?.key ?? number),
    dropUpTo >= 1 ? tx.store.delete(IDBKeyRange.upperBound(dropUpTo)) : Promise.resolve(),
  ] as const;
  tx.commit();
  const [added, highest, , done] = await Promise.allSettled([...requests, tx.done]);
  if (done.status === 'fulfilled' && added.status === 'fulfilled') {
    return { stored: true, highest: highest.status === 'fulfilled' ? highest.value : number };
  }
  if (added.status === 'rejected' && added.reason instanceof DOMException && added.reason.name === 'ConstraintError') {
    const last = await database.transaction(box).store.openKeyCursor(null, 'prev');
    return { stored: false, highest: last?.key ?? number };
  }
  throw done.status === 'rejected' ? done.reason : new Error('the browser stored nothing');
}
