/**
 * Splits a clip's frames into shares for a pool of workers, and hands the shares out.
 *
 * Each frame is measured on its own, so the result does not depend on who measures what; the split is only about
 * speed. A worker that goes on where it stopped decodes without seeking; one that starts elsewhere has
 * to decode from the key frame before. So a worker keeps to its own stretch and takes from another's only when its own is used up.
 */

/** Frames `first ≤ index < end`. */
export interface Chunk {
  readonly first: number;
  readonly end: number;
}

/** Long enough to make a message a trifle, short enough for all workers to finish together. */
export const CHUNK_FRAMES = 8;

/**
 * Splits frames into chunks of about so many frames; a limit moves to a key frame where one lies within half a chunk.
 *
 * @param frameCount T ≥ 0
 * @param keyFrames indices of key frames, rising
 * @param size frames a chunk
 * @returns chunks that cover 0..T-1 in order, without gap or overlap, none empty
 */
export function splitIntoChunks(frameCount: number, keyFrames: readonly number[] = [], size = CHUNK_FRAMES): Chunk[] {
  const chunks: Chunk[] = [];
  let first = 0;
  while (first < frameCount) {
    const even = first + size;
    const near = keyFrames.filter((k) => k > first && Math.abs(k - even) <= size / 2)
      .sort((a, b) => Math.abs(a - even) - Math.abs(b - even));
    const end = Math.min(near[0] ?? even, frameCount);
    chunks.push({ first, end });
    first = end;
  }
  return chunks;
}

/**
 * Hands chunks out: to each asker the one that follows its last, else the middle of the longest stretch that nobody has begun.
 */
export class ChunkQueue {
  readonly #chunks: readonly Chunk[];
  readonly #startsAtKey: (chunk: Chunk) => boolean;
  readonly #taken: boolean[];
  readonly #lastOf = new Map<number, number>();

  constructor(chunks: readonly Chunk[], keyFrames: readonly number[] = []) {
    const keys = new Set(keyFrames);
    this.#chunks = chunks;
    this.#startsAtKey = (chunk) => keys.has(chunk.first);
    this.#taken = chunks.map(() => false);
  }

  /**
   * @param asker any number that stays the same for the same worker
   * @returns the asker's next chunk, or undefined when all are given out
   */
  take(asker: number): Chunk | undefined {
    const last = this.#lastOf.get(asker);
    const follows = last === undefined ? undefined : last + 1;
    const index = follows !== undefined && this.#isFree(follows) ? follows : this.#jump();
    if (index === undefined) return undefined;
    this.#taken[index] = true;
    this.#lastOf.set(asker, index);
    return this.#chunks[index];
  }

  #isFree(index: number): boolean {
    return this.#taken[index] === false;
  }

  /** The start of the longest free stretch if nobody is working towards it, else its middle, at a key frame if one is near. */
  #jump(): number | undefined {
    let best: { readonly first: number; readonly end: number } | undefined;
    for (let i = 0; i < this.#chunks.length; ) {
      if (!this.#isFree(i)) {
        i += 1;
        continue;
      }
      let end = i;
      while (this.#isFree(end)) end += 1;
      if (!best || end - i > best.end - best.first) best = { first: i, end };
      i = end;
    }
    if (!best) return undefined;
    if (best.first === 0) return 0;
    const middle = (best.first + best.end) >> 1;
    const reach = (best.end - best.first) >> 2;
    for (let off = 0; off <= reach; off++) {
      for (const at of [middle + off, middle - off]) {
        const chunk = this.#chunks[at];
        if (chunk && at >= best.first && at < best.end && this.#startsAtKey(chunk)) return at;
      }
    }
    return middle;
  }
}
