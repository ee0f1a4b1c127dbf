/**
 * Opens pages of the built app in a real browser for the tests below this folder.
 *
 * The app is built and served once for all of them (see `scripts/test/serveForTests.ts`); each test file gets its own browser.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, inject } from 'vitest';
import { launchBrowser } from '../../scripts/browser/launch.ts';

let running: Promise<Browser> | undefined;

afterAll(async () => {
  const browser = await running;
  running = undefined;
  await browser?.close();
});

/** Address of the served app, with a slash at its end. */
export function appUrl(): string {
  return inject('appUrl');
}

export interface OpenedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Addresses of every request that the page or its workers made, in order. */
  readonly requests: readonly string[];
  /** Texts of page errors and console errors. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

/**
 * Opens `path` (e.g. `/`, `/?demo`, `/lab.html`) in a fresh context, so that nothing stored leaks between tests.
 *
 * @param size window size in CSS pixels
 */
export async function openPage(path: string, size = { width: 1440, height: 900 }): Promise<OpenedPage> {
  running ??= launchBrowser();
  const browser = await running;
  const context = await browser.newContext({ viewport: size, acceptDownloads: true });
  const requests: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => requests.push(request.url()));
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(new URL(path, appUrl()).href);
  return { page, context, requests, complaints, close: () => context.close() };
}
