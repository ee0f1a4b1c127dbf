/**
 * Serves single modules of the app, unbundled, with a page that lets tests call them in a real browser.
 */
import { createReadStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { createServer, type Plugin } from 'vite';
import { prepareAssets } from '../../../scripts/assets/prepare.ts';
import { launchBrowser } from '../../../scripts/browser/launch.ts';
import { PROJECT_FOLDER } from '../../../scripts/serve/projectFolder.ts';

const PAGE = '<!doctype html><html lang="en"><title>rig</title><script type="module" src="/tests/browser/footage-pose/rigPage.ts"></script></html>';

/** Two servers in one: `clips/` answers byte ranges, `plain/` sends every file whole, as a simple server does. */
function serveClips(folder: string): Plugin {
  return {
    name: 'rig',
    configureServer(server) {
      server.middlewares.use('/rig.html', (_, response) => { response.setHeader('Content-Type', 'text/html').end(PAGE); });
      server.middlewares.use('/plain', (request, response) => { createReadStream(join(folder, request.url ?? '')).pipe(response); });
      server.middlewares.use('/clips', (request, response) => {
        const path = join(folder, request.url ?? '');
        const { size } = statSync(path);
        const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.range ?? '');
        const start = Number(range?.[1] ?? 0);
        const end = Math.min(size - 1, range?.[2] ? Number(range[2]) : size - 1);
        response.writeHead(range ? 206 : 200, { 'Content-Length': end - start + 1, ...(range ? { 'Content-Range': `bytes ${start}-${end}/${size}` } : {}) });
        createReadStream(path, { start, end }).pipe(response);
      });
    },
  };
}

export interface OpenRig {
  readonly page: Page;
  /** Folder for clips; `clips/NAME` and `plain/NAME` are their addresses. */
  readonly folder: string;
  readonly close: () => Promise<void>;
}

export async function openRig(): Promise<OpenRig> {
  const folder = mkdtempSync(join(tmpdir(), 'nudgebook-rig-'));
  await prepareAssets(PROJECT_FOLDER);
  const server = await createServer({
    root: PROJECT_FOLDER,
    configFile: false,
    publicDir: 'generated/public',
    logLevel: 'error',
    cacheDir: join(folder, 'vite'),
    // Nothing is bundled beforehand: a bundle found necessary half-way would reload the page under the test.
    optimizeDeps: { noDiscovery: true, include: [] },
    server: { host: '127.0.0.1', port: 0, hmr: false, watch: null },
    plugins: [serveClips(folder)],
  });
  let browser: Browser | undefined;
  const close = async (): Promise<void> => {
    await browser?.close();
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    await server.listen();
    browser = await launchBrowser();
    const page = await browser.newPage();
    await page.goto(`${server.resolvedUrls?.local[0] ?? ''}rig.html`);
    await page.waitForFunction(() => window.nudgebookRig !== undefined);
    return { page, folder, close };
  } catch (error) {
    await close();
    throw error;
  }
}
