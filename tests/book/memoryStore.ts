/**
 * The boxes of `keyStore.ts` in memory, for tests: several windows can share one, and any call can be made to fail.
 */
import type { KeyStore } from '../../src/book/keyStore.ts';

export interface MemoryStore extends KeyStore {
  readonly boxes: { readonly books: Map<number, unknown>; readonly aside: Map<number, unknown>; readonly tracks: Map<string, unknown> };
  /** Thrown by the next writes until it is set back. */
  failWith: unknown;
  closed: boolean;
}

export function memoryStore(): MemoryStore {
  const boxes = { books: new Map<number, unknown>(), aside: new Map<number, unknown>(), tracks: new Map<string, unknown>() };
  const highest = (box: 'books' | 'aside') => Math.max(0, ...boxes[box].keys());
  return {
    boxes,
    failWith: undefined,
    closed: false,
    async append(box, number, value, dropUpTo) {
      const copy: unknown = structuredClone(value);
      await Promise.resolve();
      if (this.failWith !== undefined) throw this.failWith;
      if (boxes[box].has(number)) return { stored: false, highest: highest(box) };
      boxes[box].set(number, copy);
      for (const old of boxes[box].keys()) if (old <= dropUpTo) boxes[box].delete(old);
      return { stored: true, highest: highest(box) };
    },
    async entries(box) {
      return [...boxes[box]].sort(([a], [b]) => a - b).map(([number, value]) => ({ number, value: structuredClone(value) }));
    },
    async latest(box) {
      const number = highest(box);
      return number === 0 ? undefined : { number, value: structuredClone(boxes[box].get(number)) };
    },
    async put(box, key, value) {
      if (this.failWith !== undefined) throw this.failWith;
      boxes[box].set(key, structuredClone(value));
    },
    get: async (box, key) => structuredClone(boxes[box].get(key)),
    delete: async (box, key) => void boxes[box].delete(key),
    keys: async (box) => [...boxes[box].keys()],
    close() {
      this.closed = true;
    },
  };
}
