/** The app poses a clip: opened by hand, kept for the next time, cancelled. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { openFile, steps } from './appPage.ts';
import { openPage } from './harness.ts';

const clip = (name: string): string => join(PROJECT_FOLDER, 'reference-clips', `${name}.webm`);

describe('a clip in the app', () => {
  it('poses a clip that is opened by hand, shows it growing, and has it at once next time', async () => {
    const { page, close } = await openPage('/');
    await page.getByRole('button', { name: /Open a clip/ }).waitFor();
    await openFile(page, clip('arm-raise'));
    await page.getByRole('progressbar', { name: 'Frames posed' }).waitFor();
    await page.getByRole('progressbar', { name: 'Frames posed' }).waitFor({ state: 'detached', timeout: 150_000 });
    expect(await steps(page)).toBe(66);
    await page.keyboard.press('Shift+n');
    await page.getByRole('button', { name: /Open a clip/ }).waitFor();
    // A kept track is there without another run of the engine.
    await page.evaluate(() => {
      new MutationObserver(() => {
        if (document.querySelector('progress[aria-label="Frames posed"]')) document.documentElement.dataset['posedAgain'] = 'yes';
      }).observe(document.body, { childList: true, subtree: true, attributes: true });
    });
    await openFile(page, clip('arm-raise'));
    await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === 66);
    expect(await page.evaluate(() => document.documentElement.dataset['posedAgain'])).toBeUndefined();
    await close();
  });

  it('cancels a pose run and keeps the book', async () => {
    const { page, close } = await openPage('/?clip=squat');
    await page.getByRole('progressbar', { name: 'Frames posed' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('progressbar', { name: 'Frames posed' }).waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /Pose with/ }).waitFor();
    await close();
  });
});
