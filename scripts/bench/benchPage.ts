/**
 * Builds the bench page into generated/bench and serves it as the app is served: unpacked, under the same security policy.
 */
import { createServer } from 'node:http';
import { join } from 'node:path';
import sirv from 'sirv';
import { build } from 'vite';
import { prepareAssets } from '../assets/prepare.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { SECURITY_HEADERS } from '../serve/securityHeaders.ts';
import type { ServedApp } from '../serve/serveApp.ts';

const OUT = join(PROJECT_FOLDER, 'generated', 'bench');

async function buildPage(): Promise<void> {
  await build({
    configFile: false,
    root: join(PROJECT_FOLDER, 'scripts', 'bench', 'page'),
    logLevel: 'error',
    base: './',
    publicDir: await prepareAssets(PROJECT_FOLDER),
    worker: { format: 'es' },
    build: { outDir: OUT, emptyOutDir: true, target: 'es2023' },
  });
}

/** Close it when done. */
export async function serveBenchPage(): Promise<ServedApp> {
  await buildPage();
  const send = sirv(OUT, {
    setHeaders: (response) => {
      for (const [name, value] of Object.entries(SECURITY_HEADERS)) response.setHeader(name, value);
    },
  });
  const server = createServer((request, response) => send(request, response, () => { response.writeHead(404).end(); }));
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  if (!address || typeof address !== 'object') throw new Error('The bench page could not be served.');
  return {
    url: `http://127.0.0.1:${address.port}/`,
    close: () => new Promise((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    }),
  };
}
