// Opens the drawing page in an installed browser, served from this machine only.
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { createServer } from 'vite';
import { launchBrowser } from '../browser/launch.ts';

const HERE = fileURLToPath(new URL('.', import.meta.url));

/** Runs `work` with the page ready; server and browser are closed in any case. */
export async function withPage<T>(work: (page: Page) => Promise<T>): Promise<T> {
  const server = await createServer({
    configFile: false,
    root: `${HERE}page`,
    cacheDir: fileURLToPath(new URL('../../node_modules/.cache/clips', import.meta.url)),
    logLevel: 'error',
    server: { host: '127.0.0.1', port: 0, hmr: false, watch: null, fs: { allow: [fileURLToPath(new URL('../..', import.meta.url))] } },
    optimizeDeps: { include: ['three', 'mediabunny'] },
  });
  try {
    await server.listen();
    const address = server.resolvedUrls?.local[0];
    if (address === undefined) throw new Error('the page could not be served');
    const browser = await launchBrowser();
    try {
      const page = await browser.newPage();
      page.on('pageerror', (error) => console.error(`page: ${error.message}`));
      page.on('console', (message) => {
        if (message.type() === 'error') console.error(`page: ${message.text()}`);
      });
      await page.goto(address);
      await page.waitForFunction(() => window.clipsPage !== undefined);
      return await work(page);
    } finally {
      await browser.close();
    }
  } finally {
    await server.close();
  }
}
