/**
 * The little that `storage.ts` asks of a database, so that its logic runs against memory in tests and IndexedDB in the app.
 */

/** What came of an {@link KeyStore.append}. */
export interface Appended {
  /** The number was free and the value is stored under it. */
  readonly stored: boolean;
  /** Highest number in the box afterwards. */
  readonly highest: number;
}

/**
 * Two kinds of boxes: numbered ones that grow (`books`, `aside`), and one by name (`tracks`).
 * Values are anything structured clone can carry. Each call is atomic, also against other windows.
 */
export interface KeyStore {
  /**
   * Stores under a number only if that number is free, and drops all numbers up to `dropUpTo` then.
   * The request must be issued before this returns: it is called while a page is being hidden.
   */
  append(box: 'books' | 'aside', number: number, value: unknown, dropUpTo: number): Promise<Appended>;
  /** All entries of a numbered box, rising. */
  entries(box: 'books' | 'aside'): Promise<readonly { readonly number: number; readonly value: unknown }[]>;
  /** Highest entry of a numbered box. */
  latest(box: 'books' | 'aside'): Promise<{ readonly number: number; readonly value: unknown } | undefined>;
  put(box: 'tracks', key: string, value: unknown): Promise<void>;
  get(box: 'tracks', key: string): Promise<unknown>;
  delete(box: 'tracks', key: string): Promise<void>;
  keys(box: 'tracks'): Promise<readonly string[]>;
  close(): void;
}
