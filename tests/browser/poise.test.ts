/** Poise in a browser: verdict and pictures follow the playhead, corrections and tie-downs are made and undone, no panel has a fault. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { type OpenedPage, openPage } from './harness.ts';

/** Waits until the body is fitted and the plan on the screen is that of the book. */
async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('a.save-words') === null && document.documentElement.dataset['plan'] === 'made', undefined, { timeout: 60_000 });
}

async function openPoise(size?: { width: number; height: number }): Promise<OpenedPage> {
  const opened = await openPage('/?demo#/poise', size);
  const { page } = opened;
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  await page.getByRole('heading', { name: 'Would stand' }).waitFor();
  await settled(page);
  return opened;
}

async function goTo(page: Page, step: number): Promise<void> {
  await page.keyboard.press('g');
  await page.keyboard.type(String(step));
  await page.keyboard.press('Enter');
  await page.waitForFunction((at) => document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuenow') === String(at), step);
}

async function typeInto(page: Page, label: string, value: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true }).first();
  await field.click();
  await field.press('Control+a');
  await page.keyboard.type(value);
  await field.press('Enter');
  await page.keyboard.press('Escape');
  await settled(page);
}

const panels = (page: Page): ReturnType<Page['getByRole']> => page.getByRole('group', { name: 'Beside the rows' });
const saidOf = async (page: Page): Promise<string> => (await page.locator('.said .about').allTextContents()).join();
const PANELS = ['Verdict', 'Hardware', 'In the air', 'Touches', 'Carries'];

describe('Poise', () => {
  it('says the verdict of the playhead’s step, in figures, in the figure and from above, and undoes a tie-down', async () => {
    const { page, close, complaints } = await openPoise();
    expect(await page.locator('.said strong').count()).toBe(2);
    const first = await saidOf(page);
    const crossOf = (): Promise<string | null> => page.locator('.plan-view .mass').getAttribute('d');
    const cross = await crossOf();
    await goTo(page, 21);
    await page.waitForFunction((before) => [...document.querySelectorAll('.said .about')].map((p) => p.textContent).join() !== before, first);
    expect(await saidOf(page)).not.toContain('NaN');
    expect(await crossOf()).not.toBe(cross);
    await page.getByRole('img', { name: /The puppet at this step/ }).waitFor();
    // the figure's own keys work here too
    await page.keyboard.press('v');
    await page.locator('.poise-figure button[aria-pressed=true]', { hasText: 'Front' }).waitFor();

    await panels(page).getByRole('button', { name: 'Touches' }).click();
    await page.getByRole('button', { name: 'Tied down' }).click();
    const takeBack = page.getByRole('button', { name: /^Take back: .* tied down/ });
    await takeBack.waitFor();
    await page.locator('.side-panel').getByText('qualified rigger').waitFor();
    await page.keyboard.press('Control+z');
    await takeBack.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await close();
  });

  it('finds a correction, draws the pose before and after, applies it so that the verdict changes, and undo restores the plan', async () => {
    const { page, close, complaints } = await openPoise();
    await typeInto(page, 'From step', '26');
    await typeInto(page, 'To step', '34');
    await typeInto(page, 'To a margin of', '4');
    await goTo(page, 30);
    await page.waitForFunction(() => document.querySelector('.said .about')?.textContent?.startsWith('−') === true);
    const before = await saidOf(page);
    const comparison = page.locator('.comparison');
    expect(await comparison.count()).toBe(0);

    await page.getByRole('button', { name: 'Find the smallest change' }).click();
    await page.getByRole('button', { name: 'Apply' }).waitFor({ timeout: 30_000 });
    // looked at, not applied: the other pose is there in words as well
    await comparison.getByText('as it would stand').waitFor({ timeout: 30_000 });
    await page.waitForFunction(() => /Before: −.*After: \+/.test(document.querySelector('.comparison')?.textContent ?? ''));
    expect(await saidOf(page)).toBe(before);

    await page.getByRole('button', { name: 'Apply' }).click();
    await page.waitForFunction((was) => [...document.querySelectorAll('.said .about')].map((p) => p.textContent).join() !== was, before, { timeout: 30_000 });
    await settled(page);
    const stood = Number((await page.locator('.said .about').first().textContent())?.match(/^\+([\d.]+)/)?.[1]);
    expect(stood).toBeGreaterThanOrEqual(4);
    await comparison.getByText('before it was corrected').waitFor({ timeout: 30_000 });

    await page.keyboard.press('Control+z');
    await page.waitForFunction((was) => [...document.querySelectorAll('.said .about')].map((p) => p.textContent).join() === was, before, { timeout: 30_000 });
    await comparison.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await close();
  });

  it('has the sign of balance on the ladder of every screen, with words, and none where the step holds', async () => {
    const { page, close } = await openPoise();
    for (const key of ['1', '2', '3', '4', '5']) {
      await page.keyboard.press(key);
      await goTo(page, 24);
      await page.waitForFunction(() => document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuetext')?.includes('marginal balance') === true);
      expect(await page.locator('.ladder path.balance-outline[d]').first().getAttribute('d'), `screen ${key}`).toMatch(/^M/);
      // the facts are painted with the next display frame
      await page.locator('.ladder-facts', { hasText: 'marginal' }).waitFor();
    }
    await goTo(page, 3);
    // A screen's ladder has its words some frames after its key.
    await page.waitForFunction(() => {
      const words = document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuetext') ?? '';
      return words.startsWith('step 3 of') && !words.includes('balance');
    });
    await page.waitForFunction(() => document.querySelector('.ladder-facts')?.textContent?.includes('marginal') === false);
    await close();
  });

  it.each([{ width: 1440, height: 900 }, { width: 820, height: 1100 }])('shows figure and plan in the first look, and no panel has a fault that a machine can find, at %o', async (size) => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { page, close } = await openPoise(size);
    for (const name of ['.poise-figure .puppet-box', '.plan-view svg']) {
      const box = (await page.locator(name).boundingBox())!;
      expect(box.height, name).toBeGreaterThan(180);
      expect(box.y + box.height, name).toBeLessThanOrEqual(size.height);
    }
    await page.evaluate(axe);
    const faults = async (): Promise<string[]> => page.evaluate(async () => {
      interface Axe { run: (what: Document) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
      const { violations } = await (window as unknown as { axe: Axe }).axe.run(document);
      return violations.flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html.slice(0, 160)}`));
    });
    for (const name of PANELS) {
      await panels(page).getByRole('button', { name }).click();
      if (name === 'Touches') await page.getByRole('button', { name: 'Tied down' }).click();
      if (name === 'Carries') await page.getByRole('button', { name: 'Let it carry this' }).click();
      await settled(page);
      expect(await faults(), name).toEqual([]);
      expect(await page.locator('.poise').textContent(), name).not.toContain('NaN');
    }
    await panels(page).getByRole('button', { name: 'Verdict' }).click();
    await page.getByRole('button', { name: 'Find the smallest change' }).click();
    await page.locator('.answer').waitFor({ timeout: 30_000 });
    expect(await faults(), 'an answer').toEqual([]);
    await close();
  });
});
