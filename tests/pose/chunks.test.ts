import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Chunk, CHUNK_FRAMES, ChunkQueue, splitIntoChunks } from '../../src/pose/chunks.ts';

const frames = (chunks: readonly Chunk[]): number[] => chunks.flatMap(({ first, end }) => Array.from({ length: end - first }, (_, i) => first + i));
const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

describe('splitting', () => {
  it('covers every frame once, whatever the key frames (property)', () => {
    const keys = fc.uniqueArray(fc.nat({ max: 300 })).map((k) => k.sort((a, b) => a - b));
    fc.assert(fc.property(fc.nat({ max: 300 }), keys, fc.integer({ min: 1, max: 40 }), (n, keyFrames, size) => {
      const chunks = splitIntoChunks(n, keyFrames, size);
      expect(frames(chunks)).toEqual(upTo(n));
      for (const { first, end } of chunks) {
        expect(end).toBeGreaterThan(first);
        expect(end - first).toBeLessThanOrEqual(size * 1.5);
      }
    }), { seed: 3 });
  });

  it('moves a limit to a key frame within half a chunk, the nearer of two', () => {
    expect(splitIntoChunks(30, [0, 11], 10)).toEqual([{ first: 0, end: 11 }, { first: 11, end: 21 }, { first: 21, end: 30 }]);
    expect(splitIntoChunks(20, [0, 6, 9], 10)[0]).toEqual({ first: 0, end: 9 });
  });

  it('splits evenly where the only key frame is the first', () => {
    expect(splitIntoChunks(20, [0], 8)).toEqual([{ first: 0, end: 8 }, { first: 8, end: 16 }, { first: 16, end: 20 }]);
  });
});

describe('handing out', () => {
  it('gives every chunk exactly once, whoever asks when (property)', () => {
    fc.assert(fc.property(fc.nat({ max: 200 }), fc.infiniteStream(fc.nat({ max: 3 })), (n, askers) => {
      const queue = new ChunkQueue(splitIntoChunks(n));
      const given: Chunk[] = [];
      for (const asker of askers) {
        const chunk = queue.take(asker);
        if (!chunk) break;
        given.push(chunk);
      }
      expect(frames(given).sort((a, b) => a - b)).toEqual(upTo(n));
    }), { seed: 4 });
  });

  it('lets one worker go from start to end without a jump', () => {
    const queue = new ChunkQueue(splitIntoChunks(50));
    const given: Chunk[] = [];
    for (let chunk = queue.take(0); chunk; chunk = queue.take(0)) given.push(chunk);
    expect(frames(given)).toEqual(upTo(50));
  });

  it('sets two workers half a clip apart, and each goes on where it stopped', () => {
    const queue = new ChunkQueue(splitIntoChunks(16 * CHUNK_FRAMES));
    expect(queue.take(0)).toEqual({ first: 0, end: CHUNK_FRAMES });
    expect(queue.take(1)).toEqual({ first: 8 * CHUNK_FRAMES, end: 9 * CHUNK_FRAMES });
    expect(queue.take(0)?.first).toBe(CHUNK_FRAMES);
    expect(queue.take(1)?.first).toBe(9 * CHUNK_FRAMES);
  });

  it('jumps to a key frame near the middle where there is one', () => {
    const chunks = splitIntoChunks(16 * CHUNK_FRAMES);
    const queue = new ChunkQueue(chunks, [0, 9 * CHUNK_FRAMES]);
    queue.take(0);
    expect(queue.take(1)?.first).toBe(9 * CHUNK_FRAMES);
  });

  it('lets a worker that is through help the other', () => {
    const queue = new ChunkQueue(splitIntoChunks(8 * CHUNK_FRAMES));
    queue.take(0);
    for (let i = 0; i < 4; i++) queue.take(1);
    // Worker 1 has done 4..7; what is left is 1..3, and the middle of it is 2.
    expect(queue.take(1)?.first).toBe(2 * CHUNK_FRAMES);
  });
});
