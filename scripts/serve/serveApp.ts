/**
 * Serves the built app on this machine, every response under the security policy.
 */
import { createReadStream, statSync } from 'node:fs';
import { createServer as createHttpServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { basename, join } from 'node:path';
import sirv from 'sirv';
import { PROJECT_FOLDER } from './projectFolder.ts';
import { SECURITY_HEADERS } from './securityHeaders.ts';

export interface ServedApp {
  /** Address with a slash at its end. */
  readonly url: string;
  /**
   * Serves one file from elsewhere on the disk, beside the app, in place of the one before: the clip of the command line.
   *
   * @returns its address
   */
  readonly offer: (path: string) => string;
  readonly close: () => Promise<void>;
}

export interface ServeOptions {
  readonly host: string;
  /** 0 for any that is free. */
  readonly port: number;
  /** Built folder to serve, dist/ unless said otherwise. */
  readonly folder?: string;
}

/** Address of an offered file below the app's own: `local/` and its own name. */
const addressOf = (path: string): string => `local/${encodeURIComponent(basename(path))}`;

/** Every build may differ, so a browser asks each time whether its copy still holds (it is told by its tag, at no cost). */
const HEADERS = { ...SECURITY_HEADERS, 'Cache-Control': 'no-cache' };

/**
 * Engine and models are not to be cached: several workers load them at the same moment, share one entry of the cache, and
 * in a browser with a small one (a private window) all but one of them fail when the entry grows too large.
 */
const LARGE = /^\/(wasm|models)\//;

/** Sends a file, or the byte range asked for (RFC 9110 §14, single ranges), so that a demuxer can jump about in it. */
function sendFile(path: string, request: IncomingMessage, response: ServerResponse): void {
  const size = statSync(path).size;
  const range = /^bytes=(\d*)-(\d*)$/.exec(request.headers.range ?? '');
  const headers: Record<string, string | number> = {
    ...SECURITY_HEADERS,
    'Accept-Ranges': 'bytes',
    'Content-Type': 'application/octet-stream',
    'Cache-Control': 'no-store',
  };
  let start = 0;
  let end = size - 1;
  if (range && (range[1] || range[2])) {
    if (range[1]) {
      start = Number(range[1]);
      if (range[2]) end = Math.min(end, Number(range[2]));
    } else {
      start = Math.max(0, size - Number(range[2]));
    }
    if (start > end) {
      response.writeHead(416, { ...headers, 'Content-Range': `bytes */${size}` }).end();
      return;
    }
    headers['Content-Range'] = `bytes ${start}-${end}/${size}`;
    headers['Content-Length'] = end - start + 1;
    response.writeHead(206, headers);
  } else {
    headers['Content-Length'] = size;
    response.writeHead(200, headers);
  }
  if (request.method === 'HEAD' || size === 0) {
    response.end();
    return;
  }
  const stream = createReadStream(path, { start, end });
  // The browser drops a request as soon as it has enough; reading on would only waste the disk.
  response.on('close', () => stream.destroy());
  stream.on('error', (error) => response.destroy(error));
  stream.pipe(response);
}

/**
 * Starts the server; dist/ must have been built.
 *
 * Files go out as they are: packing them on the way costs more time on a local connection than it saves.
 *
 * @throws the system's own error, with `code` such as `EADDRINUSE` where the port is taken
 */
export async function serveApp(options: ServeOptions): Promise<ServedApp> {
  let offered: string | undefined;
  const sendBuilt = sirv(options.folder ?? join(PROJECT_FOLDER, 'dist'), {
    etag: true,
    setHeaders: (response, path) => {
      for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
      if (LARGE.test(path)) response.setHeader('Cache-Control', 'no-store');
    },
  });
  const server = createHttpServer((request, response) => {
    if (offered !== undefined && request.url === `/${addressOf(offered)}`) sendFile(offered, request, response);
    else sendBuilt(request, response, () => { response.writeHead(404, { ...HEADERS, 'Content-Type': 'text/plain' }).end('There is nothing at this address.\n'); });
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, options.host, resolve);
  });
  const address = server.address();
  const port = address && typeof address === 'object' ? address.port : options.port;
  const everywhere = options.host === '0.0.0.0' || options.host === '::';
  const shown = everywhere ? 'localhost' : options.host.includes(':') ? `[${options.host}]` : options.host;
  const url = `http://${shown}:${port}/`;
  return {
    url,
    offer: (path) => {
      offered = path;
      return new URL(addressOf(path), url).href;
    },
    close: () => new Promise((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    }),
  };
}
