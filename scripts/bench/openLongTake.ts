/** Opens a book file with a long take in the app, and waits until the body is fitted to it. */
import type { Page } from 'playwright-core';

/** @param bookText text of the book file */
export async function openLongTake(page: Page, url: string, bookText: string): Promise<void> {
  await page.goto(url);
  await page.getByRole('button', { name: /Open a clip/ }).waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: /Open a clip/ }).click()]);
  await chooser.setFiles({ name: 'long.nudgebook.json', mimeType: 'application/json', buffer: Buffer.from(bookText) });
  await page.waitForFunction(() => Number(document.querySelector('.ladder')?.getAttribute('aria-valuemax')) > 0, undefined, { timeout: 60_000 });
  await page.waitForFunction(() => document.querySelector('.job') === null, undefined, { timeout: 300_000 });
}
