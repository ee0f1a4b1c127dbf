/**
 * Serves the built app on this machine, every response under the security policy.
 */
import { createReadStream, statSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createServer } from 'node:net';
import { basename, join } from 'node:path';
import { preview } from 'vite';
import { PROJECT_FOLDER } from './projectFolder.ts';
import { SECURITY_HEADERS } from './securityHeaders.ts';

export interface ServedApp {
  /** Address with a slash at its end. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

export interface ServeOptions {
  readonly host: string;
  readonly port: number;
  readonly openBrowser?: boolean;
  /** One file from elsewhere on the disk, served under `local/` and its own name: the clip of the command line. */
  readonly localFile?: string;
}

/** Address of {@link ServeOptions.localFile} below the app's own. */
export function localFileAddress(path: string): string {
  return `local/${encodeURIComponent(basename(path))}`;
}

/** A TCP port that is free at this moment on the loopback interface. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        if (address && typeof address === 'object') resolve(address.port);
        else reject(new Error('The system gave no port.'));
      });
    });
  });
}

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
 * @throws the server's own error, e.g. with code `EADDRINUSE` or a message that the port is in use
 */
export async function serveApp(options: ServeOptions): Promise<ServedApp> {
  const { localFile } = options;
  const server = await preview({
    root: PROJECT_FOLDER,
    configFile: join(PROJECT_FOLDER, 'vite.config.ts'),
    logLevel: 'error',
    preview: { host: options.host, port: options.port, strictPort: true, open: options.openBrowser ?? false },
    plugins: localFile
      ? [{
          name: 'nudgebook-local-file',
          configurePreviewServer: (made) => {
            made.middlewares.use(`/${localFileAddress(localFile)}`, (request, response) => sendFile(localFile, request, response));
          },
        }]
      : [],
  });
  const address = server.httpServer.address();
  const port = address && typeof address === 'object' ? address.port : options.port;
  const everywhere = options.host === '0.0.0.0' || options.host === '::';
  const shown = everywhere ? 'localhost' : options.host.includes(':') ? `[${options.host}]` : options.host;
  return { url: `http://${shown}:${port}/`, close: () => server.close() };
}
