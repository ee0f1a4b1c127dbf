/**
 * The name of a clip by its content, so that a finished track is found again whatever the file is called.
 *
 * Format: SHA-256 over the concatenated SHA-256 digests (32 bytes each) of consecutive chunks of
 * 4 MiB (4,194,304 bytes; the last may be shorter; an empty file has none), in lower-case hex. Web Crypto
 * has no streaming digest; hashing chunk by chunk keeps memory at one chunk for a file of any length.
 */
import { failure } from './failures.ts';
import type { ClipSource } from './source.ts';

export const HASH_CHUNK_BYTES = 4 * 1024 * 1024;
const DIGEST_BYTES = 32;

export interface HashOptions {
  readonly signal?: AbortSignal;
  /** Told how many bytes have been hashed, once a chunk. */
  readonly onBytes?: (bytes: number) => void;
}

export interface ContentHash {
  /** 64 hex digits. */
  readonly hash: string;
  readonly sizeBytes: number;
}

/**
 * Hashes a stream of bytes.
 *
 * @throws NudgebookError `cancelled`
 */
export async function hashStream(stream: ReadableStream<Uint8Array>, { signal, onBytes }: HashOptions = {}): Promise<ContentHash> {
  const chunk = new Uint8Array(HASH_CHUNK_BYTES);
  let filled = 0;
  let sizeBytes = 0;
  let digests = new Uint8Array(64 * DIGEST_BYTES);
  let digestBytes = 0;

  const closeChunk = async (): Promise<void> => {
    const digest = await crypto.subtle.digest('SHA-256', chunk.subarray(0, filled));
    if (digestBytes === digests.length) {
      const longer = new Uint8Array(digests.length * 2);
      longer.set(digests);
      digests = longer;
    }
    digests.set(new Uint8Array(digest), digestBytes);
    digestBytes += DIGEST_BYTES;
    filled = 0;
    onBytes?.(sizeBytes);
  };

  const reader = stream.getReader();
  try {
    for (;;) {
      if (signal?.aborted) throw failure.cancelled();
      const { done, value } = await reader.read();
      if (done) break;
      let taken = 0;
      while (taken < value.length) {
        const part = value.subarray(taken, taken + HASH_CHUNK_BYTES - filled);
        chunk.set(part, filled);
        filled += part.length;
        taken += part.length;
        sizeBytes += part.length;
        if (filled === HASH_CHUNK_BYTES) await closeChunk();
      }
    }
  } finally {
    // Ends the download too when hashing stops early; after the natural end it does nothing.
    await reader.cancel();
  }
  if (filled > 0) await closeChunk();
  const whole = await crypto.subtle.digest('SHA-256', digests.subarray(0, digestBytes));
  return { hash: Array.from(new Uint8Array(whole), (b) => b.toString(16).padStart(2, '0')).join(''), sizeBytes };
}

/**
 * Hashes a clip.
 *
 * @throws NudgebookError `file-missing` when it cannot be read to its end, `cancelled`
 */
export async function contentHash(source: ClipSource, options: HashOptions = {}): Promise<ContentHash> {
  try {
    if (source.kind === 'blob') return await hashStream(source.blob.stream(), options);
    const response = await fetch(source.url, { signal: options.signal });
    if (!response.ok || !response.body) throw failure.fileMissing(source.name, `status ${response.status}`);
    return await hashStream(response.body, options);
  } catch (cause) {
    if (options.signal?.aborted) throw failure.cancelled();
    throw cause instanceof Error && cause.name === 'NudgebookError' ? cause : failure.fileMissing(source.name, cause);
  }
}
