/** Poise in a browser: verdict and figure follow the playhead, a tie-down and a correction are made and undone. */
import { describe, expect, it } from 'vitest';
import { openPage } from './harness.ts';

describe('Poise', () => {
  it('says the verdict, shows the plumb line, ties a foot down, asks for a correction, and undoes the tie-down', async () => {
    const { page, close, complaints } = await openPage('/?demo#/poise');
    await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
    await page.getByRole('heading', { name: 'Would stand' }).waitFor();
    await page.waitForFunction(() => document.querySelector('.job') === null, undefined, { timeout: 60_000 });
    const panel = page.getByRole('group', { name: 'Beside the rows' });
    const words = page.locator('.said strong');
    const figures = page.locator('.said .about');
    expect(await words.count()).toBe(2);
    const said = async (): Promise<string> => (await figures.allTextContents()).join();
    const first = await said();
    await page.keyboard.press('g');
    await page.keyboard.type('21');
    await page.keyboard.press('Enter');
    await page.waitForFunction((before) => [...document.querySelectorAll('.said .about')].map((p) => p.textContent).join() !== before, first);
    expect(await said()).not.toContain('NaN');

    await page.getByRole('button', { name: 'Find the smallest change' }).click();
    await page.locator('.answer').waitFor({ timeout: 30_000 });
    expect((await page.locator('.answer').textContent())?.length).toBeGreaterThan(20);

    await page.getByRole('img', { name: /The puppet at this step/ }).waitFor();

    await panel.getByRole('button', { name: 'Touches' }).click();
    await page.getByRole('button', { name: 'Tied down' }).click();
    const takeBack = page.getByRole('button', { name: /^Take back: .* tied down/ });
    await takeBack.waitFor();
    await page.keyboard.press('Control+z');
    await takeBack.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await close();
  });
});
