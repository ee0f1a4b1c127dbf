/**
 * A bounded store of pictures that forgets the ones longest unused, and closes them.
 */

/** Anything that holds memory until it is closed. */
export interface Closable {
  close(): void;
}

export class BitmapCache<T extends Closable> {
  readonly #budgetBytes: number;
  // A Map keeps the order of insertion; taking out and putting in again makes an entry the youngest.
  readonly #entries = new Map<number, { readonly item: T; readonly bytes: number }>();
  #bytes = 0;

  /** @param budgetBytes most bytes to hold; one item is always kept, however large */
  constructor(budgetBytes: number) {
    this.#budgetBytes = budgetBytes;
  }

  /** Bytes held now. */
  get bytes(): number {
    return this.#bytes;
  }

  has(index: number): boolean {
    return this.#entries.has(index);
  }

  /** The item, which becomes the most recently used. */
  get(index: number): T | undefined {
    const entry = this.#entries.get(index);
    if (!entry) return undefined;
    this.#entries.delete(index);
    this.#entries.set(index, entry);
    return entry.item;
  }

  /** Stores an item, closing the one it replaces and those for which there is no more room. */
  set(index: number, item: T, bytes: number): void {
    this.#drop(index);
    this.#entries.set(index, { item, bytes });
    this.#bytes += bytes;
    for (const oldest of this.#entries.keys()) {
      if (this.#bytes <= this.#budgetBytes || oldest === index) break;
      this.#drop(oldest);
    }
  }

  /** Closes and forgets everything. */
  clear(): void {
    for (const index of [...this.#entries.keys()]) this.#drop(index);
  }

  #drop(index: number): void {
    const entry = this.#entries.get(index);
    if (!entry) return;
    this.#entries.delete(index);
    this.#bytes -= entry.bytes;
    entry.item.close();
  }
}
