/**
 * What can go wrong in the browser's storage, as states that the screen can show and code can tell apart.
 */
import { NudgebookError } from '../errors.ts';

/**
 * - `unavailable`: the browser gives no storage (private window, switched off, blocked).
 * - `quota`: no room is left.
 * - `another-window`: another window saved after this one last read; nothing was overwritten.
 * - `unreadable-book`: the last book does not open; it is kept aside.
 * - `other`: anything else, with the browser's own words in `cause`.
 */
export type StorageFailure = 'unavailable' | 'quota' | 'another-window' | 'unreadable-book' | 'other';

/** Always of code `storage-failed`; `reason` tells which of the failures it is. */
export class StorageError extends NudgebookError {
  readonly reason: StorageFailure;

  constructor(reason: StorageFailure, sentence: string, tip: string, cause?: unknown) {
    super('storage-failed', sentence, tip, cause);
    this.reason = reason;
  }
}

const SAVE_TIP = 'Save the book to a file now: that copy does not depend on the browser.';

/**
 * Any error of the browser's storage as one of ours; one that is ours already comes back as it is.
 *
 * @param doing what was tried, to stand after "could not", e.g. `save the book`
 */
export function asStorageError(thrown: unknown, doing: string): NudgebookError {
  if (thrown instanceof NudgebookError) return thrown;
  const name = thrown instanceof Error || thrown instanceof DOMException ? thrown.name : '';
  if (name === 'QuotaExceededError') {
    return new StorageError(
      'quota',
      `The browser could not ${doing}: it has no room left for Nudgebook.`,
      `${SAVE_TIP} Then delete kept tracks that are no longer needed, or free space on the disk.`,
      thrown,
    );
  }
  if (name === 'VersionError') {
    return new StorageError('other', `The browser could not ${doing}: a newer Nudgebook has changed its storage.`, `${SAVE_TIP} Then reload the page.`, thrown);
  }
  const said = thrown instanceof Error || thrown instanceof DOMException ? thrown.message : String(thrown);
  return new StorageError('other', `The browser could not ${doing}: ${said}`, SAVE_TIP, thrown);
}

/** The browser gives no storage at all. */
export function storageUnavailable(cause?: unknown): StorageError {
  return new StorageError(
    'unavailable',
    'This browser gives Nudgebook no storage, so nothing is kept when the window is closed.',
    'Save the book to a file before you close it. In a private window storage is often switched off.',
    cause,
  );
}
