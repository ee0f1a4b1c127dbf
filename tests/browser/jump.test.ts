/** A take that jumps, opened as a book whose footage is elsewhere: the flight is found, drawn against free fall, and said in words. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage, type OpenedPage } from './harness.ts';
import { ALOFT_S, jumpBook } from './jumpBook.ts';

async function openJump(size?: { width: number; height: number }): Promise<OpenedPage> {
  const opened = await openPage('/#/poise', size);
  const { page } = opened;
  await page.locator('.screen-poise').waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open', exact: true }).click()]);
  await chooser.setFiles({ name: 'leap.nudgebook.json', mimeType: 'application/json', buffer: Buffer.from(jumpBook()) });
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  await page.waitForFunction(() => document.querySelector('.job') === null && performance.getEntriesByName('fit').length > 0);
  await page.waitForFunction(() => document.documentElement.dataset['plan'] === 'made');
  await page.getByRole('group', { name: 'Beside the rows' }).getByRole('button', { name: 'In the air' }).click();
  await page.getByRole('heading', { name: /^Jump, steps \d+ to \d+$/ }).waitFor();
  return opened;
}

const step = (page: Page): Promise<string | null> => page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuenow');
const panel = (page: Page): ReturnType<Page['locator']> => page.locator('.side-panel');

describe('In the air', () => {
  it.each([{ width: 1440, height: 900 }, { width: 820, height: 1100 }])('finds the jump, draws it against free fall and follows the playhead, at %o', async (size) => {
    const { page, close, complaints } = await openJump(size);
    const row = panel(page).getByRole('row').nth(1).getByRole('cell');
    expect(await row.nth(0).innerText()).toBe('jump, in time');
    // As measured: feet are said to leave a little early and land a little late (docs/balance.md).
    const [aloft, error] = (await row.nth(2).innerText()).split(' ± ').map(Number);
    expect(aloft! - ALOFT_S).toBeGreaterThan(-error!);
    expect(aloft! - ALOFT_S).toBeLessThan(0.33);
    expect(Math.abs(Number(await row.nth(3).innerText()) - aloft!)).toBeLessThanOrEqual(error!);
    expect(Number(await row.nth(4).innerText())).toBeLessThan(15);
    expect(await panel(page).locator('figcaption p').innerText()).toMatch(/^\d\.\d\d ± \d\.\d\d s in the air, \d\.\d\d s in free fall: in time\.$/);

    const chart = page.getByRole('img', { name: /^Height of the centre of mass from step \d+ to step \d+, millimetres over the floor, and the parabola of free fall/ });
    for (const name of ['arc-own', 'arc-fall', 'arc-air', 'arc-touch']) {
      const d = await chart.locator(`path.${name}`).getAttribute('d');
      expect(d, name).toMatch(/^M/);
      expect(d, name).not.toContain('NaN');
    }
    expect(await chart.locator('text', { hasText: 'centre of mass over the floor, mm' }).count()).toBe(1);
    expect(await chart.locator('text', { hasText: 's of film apart' }).count()).toBe(1);
    const box = (await chart.boundingBox())!;
    expect(box.x + box.width).toBeLessThanOrEqual(size.width);

    // Its button goes where it leaves the floor; ladder and chart say so.
    expect(await chart.locator('path.arc-here').getAttribute('d')).toBeNull();
    await row.nth(1).getByRole('button').click();
    const from = /^(\d+)–(\d+)$/.exec(await row.nth(1).innerText())!;
    await page.waitForFunction((at) => document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuenow') === at, from[1]);
    expect(await page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuetext')).toContain('no foot stands, in the air');
    await page.waitForFunction(() => document.querySelector('path.arc-here')?.getAttribute('d')?.startsWith('M'));
    const here = await chart.locator('path.arc-here').getAttribute('d');
    await page.keyboard.press('ArrowDown');
    await page.waitForFunction((before) => document.querySelector('path.arc-here')?.getAttribute('d') !== before, here);
    await page.locator('.ladder-facts', { hasText: 'in the air' }).waitFor();
    expect(await step(page)).toBe(String(Number(from[1]) + 1));
    await page.getByRole('group', { name: 'Beside the rows' }).getByRole('button', { name: 'Verdict' }).click();
    await page.locator('.said strong', { hasText: 'in the air' }).first().waitFor();
    expect(await page.locator('.poise').innerText()).not.toContain('NaN');
    expect(complaints).toEqual([]);
    await close();
  });

  it('says that it floats once the film is slower than the fall, and undo takes that back', async () => {
    const { page, close, complaints } = await openJump();
    await page.keyboard.press('3');
    const scale = page.getByLabel('Time scale: film time over performed time');
    await scale.fill('2');
    await scale.press('Enter');
    await page.keyboard.press('4');
    await page.waitForFunction(() => document.querySelector('.flight-chart figcaption p')?.textContent?.includes('floats: it is longer in the air than free fall') === true);
    await page.keyboard.press('Control+z');
    await page.waitForFunction(() => document.querySelector('.flight-chart figcaption p')?.textContent?.endsWith('in time.') === true);
    expect(complaints).toEqual([]);
    await close();
  });
});
