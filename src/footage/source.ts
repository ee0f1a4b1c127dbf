/**
 * Where a clip comes from, and the demuxer over it.
 *
 * A source is plain data that can be sent to a worker; each worker opens it for itself. The demuxer
 * package is imported only when a clip is opened, because the page must be usable before that.
 */
import type { Input } from 'mediabunny';
import { failure } from './failures.ts';

export type ClipSource =
  | { readonly kind: 'blob'; readonly blob: Blob; readonly name: string }
  | { readonly kind: 'url'; readonly url: string; readonly name: string };

/** Tries of one request before a clip at an address counts as gone; the local server either answers or is closed. */
const TRIES = 3;
const RETRY_DELAY_S = 0.3;
/** Enough for the index of a long clip; packets themselves stream through. */
const CACHE_BYTES = 16 * 1024 * 1024;

/**
 * Makes the address of a source absolute, because a worker resolves relative ones against its own script.
 *
 * @param baseUrl address of the page
 */
export function absoluteSource(source: ClipSource, baseUrl: string): ClipSource {
  return source.kind === 'url' ? { ...source, url: new URL(source.url, baseUrl).href } : source;
}

/**
 * Opens a demuxer over a source. The caller disposes of it.
 *
 * Sound formats are read too, so that a sound file is told apart from a file that is no medium at all.
 * Playlists are not: their parts would be fetched from wherever they point.
 *
 * @throws NudgebookError `file-missing`
 */
export async function openInput(source: ClipSource): Promise<Input> {
  const m = await import('mediabunny');
  const read = source.kind === 'url' && !(await answersRanges(source.url)) ? await downloaded(source) : source;
  // A read-ahead that fails is reported by the next real read; alone it is of no interest.
  const handleUnhandledError = (): void => undefined;
  return new m.Input({
    formats: [m.MP4, m.QTFF, m.MATROSKA, m.WEBM, m.MPEG_TS, m.OGG, m.MP3, m.WAVE, m.FLAC, m.ADTS],
    source: read.kind === 'blob'
      ? new m.BlobSource(read.blob, { maxCacheSize: CACHE_BYTES, handleUnhandledError })
      : new m.UrlSource(read.url, {
          maxCacheSize: CACHE_BYTES,
          handleUnhandledError,
          getRetryDelay: (previousAttempts) => (previousAttempts < TRIES ? RETRY_DELAY_S : null),
        }),
  });
}

/** Whether a server sends a part of a file when asked for one. */
async function answersRanges(url: string): Promise<boolean> {
  const response = await fetch(url, { headers: { Range: 'bytes=0-0' } }).catch(() => undefined);
  await response?.body?.cancel();
  return response?.status === 206;
}

/**
 * Fetches a clip whole, for a server that cannot send parts: a demuxer that jumps about in a stream would have to hold
 * all of it in memory, while the browser keeps a large blob on disk.
 */
async function downloaded(source: Extract<ClipSource, { kind: 'url' }>): Promise<ClipSource> {
  const response = await fetch(source.url).catch((cause: unknown) => {
    throw failure.fileMissing(source.name, cause);
  });
  if (!response.ok) throw failure.fileMissing(source.name, `status ${response.status}`);
  return { kind: 'blob', blob: await response.blob(), name: source.name };
}

/**
 * Size of a clip in bytes, before anything is demuxed.
 *
 * @returns undefined where a server does not tell
 * @throws NudgebookError `file-missing` or `file-empty`
 */
export async function sourceSize(source: ClipSource, signal?: AbortSignal): Promise<number | undefined> {
  if (source.kind === 'blob') {
    if (source.blob.size === 0) throw failure.fileEmpty(source.name);
    return source.blob.size;
  }
  let response: Response;
  try {
    response = await fetch(source.url, { headers: { Range: 'bytes=0-0' }, signal });
  } catch (cause) {
    throw signal?.aborted ? failure.cancelled() : failure.fileMissing(source.name, cause);
  }
  await response.body?.cancel();
  // "Range not satisfiable" to the very first byte: there is no first byte.
  if (response.status === 416) throw failure.fileEmpty(source.name);
  // A server for single-page apps answers an unknown address with its front page.
  const isPage = response.headers.get('Content-Type')?.startsWith('text/html') ?? false;
  if (!response.ok || isPage) throw failure.fileMissing(source.name, `status ${response.status}`);
  const whole = /\/(\d+)$/.exec(response.headers.get('Content-Range') ?? '')?.[1];
  const told = whole ?? (response.status === 200 ? response.headers.get('Content-Length') : null);
  if (told === null) return undefined;
  if (Number(told) === 0) throw failure.fileEmpty(source.name);
  return Number(told);
}
