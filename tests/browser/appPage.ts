/** What tests of the app do on its page again and again. */
import type { Page } from 'playwright-core';

/** Waits until the ladder has steps; returns how many. */
export async function steps(page: Page): Promise<number> {
  const ladder = page.getByRole('slider', { name: 'Steps' });
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  return Number(await ladder.getAttribute('aria-valuemax'));
}

/** Opens a file by Ctrl+O. */
export async function openFile(page: Page, file: string | { readonly name: string; readonly mimeType: string; readonly buffer: Buffer }): Promise<void> {
  const asked = page.waitForEvent('filechooser');
  // Keys reach the page by another way than the wish to answer for the person and may overtake it; one answer from the page
  // says that the wish has arrived.
  await page.evaluate(() => document.readyState);
  await page.keyboard.press('Control+o');
  await (await asked).setFiles(file);
}
