import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { contentHash, HASH_CHUNK_BYTES, hashStream } from '../../src/footage/contentHash.ts';

/** The documented format once more, the slow and obvious way. */
function expectedHash(bytes: Uint8Array): string {
  const digests: Buffer[] = [];
  for (let at = 0; at < bytes.length; at += 4_194_304) {
    digests.push(createHash('sha256').update(bytes.subarray(at, at + 4_194_304)).digest());
  }
  return createHash('sha256').update(Buffer.concat(digests)).digest('hex');
}

/** Bytes that differ everywhere, from a small linear congruence. */
function bytesOf(length: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(length);
  let x = 12345;
  for (let i = 0; i < length; i++) {
    x = (Math.imul(x, 1103515245) + 12345) >>> 0;
    bytes[i] = x >>> 24;
  }
  return bytes;
}

function streamIn(bytes: Uint8Array, step: number): ReadableStream<Uint8Array> {
  let at = 0;
  return new ReadableStream({
    pull(controller) {
      if (at >= bytes.length) controller.close();
      else controller.enqueue(bytes.subarray(at, (at += step)));
    },
  });
}

describe('the content hash', () => {
  it.each([0, 1, 1000, HASH_CHUNK_BYTES - 1, HASH_CHUNK_BYTES, HASH_CHUNK_BYTES + 1, 3 * HASH_CHUNK_BYTES + 77])('of %i bytes is the documented one', async (length) => {
    const bytes = bytesOf(length);
    expect(await contentHash({ kind: 'blob', blob: new Blob([bytes]), name: 'x' })).toEqual({ hash: expectedHash(bytes), sizeBytes: length });
  });

  it('does not depend on how the stream is cut', async () => {
    const bytes = bytesOf(2 * HASH_CHUNK_BYTES + 5);
    const expected = expectedHash(bytes);
    for (const step of [65_537, HASH_CHUNK_BYTES + 3, bytes.length]) {
      expect((await hashStream(streamIn(bytes, step))).hash).toBe(expected);
    }
  });

  it('holds more digests than it first had room for', async () => {
    // 65 chunks: one more than the first buffer of digests takes.
    const piece = bytesOf(HASH_CHUNK_BYTES);
    const one = createHash('sha256').update(piece).digest();
    const expected = createHash('sha256').update(Buffer.concat(Array.from({ length: 65 }, () => one))).digest('hex');
    let left = 65;
    const stream = new ReadableStream<Uint8Array>({ pull: (c) => { if (left-- > 0) c.enqueue(piece); else c.close(); } });
    expect((await hashStream(stream)).hash).toBe(expected);
  });

  it('stops when told to, and stops the stream', async () => {
    const cancel = new AbortController();
    let ended = false;
    const endless = new ReadableStream<Uint8Array>({ pull: (c) => { c.enqueue(bytesOf(1 << 20)); }, cancel: () => { ended = true; } });
    await expect(hashStream(endless, { signal: cancel.signal, onBytes: () => cancel.abort() })).rejects.toMatchObject({ code: 'cancelled' });
    expect(ended).toBe(true);
  });
});
