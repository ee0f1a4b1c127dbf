/**
 * The app as an animator uses it: the demo, the keyboard, edits and undo, a reload, files in and out, and what goes wrong.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openFile, steps } from './appPage.ts';
import { openPage } from './harness.ts';

/** Waits until the ladder has exactly so many steps: a new plan comes a moment after the change. */
async function stepsBecome(page: Page, count: number): Promise<void> {
  await page.waitForFunction((wanted) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === wanted, count);
}

async function stepAt(page: Page): Promise<number> {
  // The playhead paints with the next display frame.
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  return Number(await page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuenow'));
}

/** Waits until the steps are whole and no work is under way, which is when they can be saved. Asked on the Sheet. */
async function whole(page: Page): Promise<void> {
  await page.waitForFunction(() => [...document.querySelectorAll('button')].some((b) => b.textContent?.includes('increments.csv') === true && !b.disabled));
}

async function saved(page: Page): Promise<void> {
  await page.getByText('saved', { exact: true }).waitFor();
}

describe('the app', () => {
  it('shows the whole plan of the demo', async () => {
    const { page, close, complaints } = await openPage('/?demo');
    const count = await steps(page);
    // 155 intervals of 1/30 s at 12 poses a second.
    expect(count).toBe(63);
    await page.waitForFunction(() => document.querySelector('canvas[aria-label]') !== null);
    expect(complaints).toEqual([]);
    await close();
  });

  it('fits the body by itself, keeps its place, and fits again when the speed of shooting changes', async () => {
    const { page, close, complaints } = await openPage('/?demo');
    const count = await steps(page);
    await page.keyboard.press('PageDown');
    await page.getByText('the fitted body', { exact: true }).waitFor();
    expect(await stepAt(page)).toBe(11);
    expect(await steps(page)).toBe(count);
    await page.getByText(/^looks (down|up|straight)/).waitFor();
    const speed = page.getByLabel('Shot faster than stored');
    await speed.fill('2');
    await speed.press('Enter');
    await page.waitForFunction((former) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) < former, count);
    await page.getByText('the fitted body', { exact: true }).waitFor();
    await page.getByRole('progressbar', { name: 'Fitting the body' }).waitFor({ state: 'detached' });
    expect(await page.getByRole('button', { name: 'Fit the body' }).count()).toBe(0);
    expect(complaints).toEqual([]);
    await close();
  });

  it('goes everywhere by keyboard', async () => {
    const { page, close } = await openPage('/');
    await page.getByRole('button', { name: /Open Marla/ }).waitFor();
    await page.keyboard.press('d');
    const count = await steps(page);
    expect(await stepAt(page)).toBe(1);
    await page.keyboard.press('ArrowDown');
    expect(await stepAt(page)).toBe(2);
    await page.keyboard.press('PageDown');
    expect(await stepAt(page)).toBe(12);
    await page.keyboard.press('End');
    expect(await stepAt(page)).toBe(count);
    await page.keyboard.press('ArrowDown');
    expect(await stepAt(page)).toBe(count);
    await page.keyboard.press('Home');
    expect(await stepAt(page)).toBe(1);
    await page.keyboard.press('g');
    await page.keyboard.type('21');
    await page.keyboard.press('Enter');
    expect(await stepAt(page)).toBe(21);
    for (const [key, address] of [['2', '#/puppet'], ['3', '#/pace'], ['4', '#/poise'], ['5', '#/sheet'], ['1', '#/take']] as const) {
      await page.keyboard.press(key);
      await page.waitForFunction((wanted) => location.hash === wanted, address);
      // A screen's ladder has its step some frames after its key.
      await expect.poll(() => stepAt(page)).toBe(21);
    }
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await close();
  });

  it('changes the plan at once, undoes and redoes, and keeps it all over a reload', async () => {
    const { page, close } = await openPage('/?demo#/pace');
    expect(await steps(page)).toBe(63);
    await page.getByRole('button', { name: 'ones' }).click();
    await stepsBecome(page, 125);
    await page.keyboard.press('Control+z');
    await stepsBecome(page, 63);
    await page.keyboard.press('Control+Shift+z');
    await stepsBecome(page, 125);
    await page.keyboard.press('End');
    await page.keyboard.press('s');
    await saved(page);
    // The demo's address is left behind, or the reload would start it over.
    await page.goto(`${new URL('/', page.url()).href}#/sheet`);
    await stepsBecome(page, 125);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await close();
  });

  it('gives increments.csv, plan.json and the book as files, and opens the book again', async () => {
    const { page, close } = await openPage('/?demo#/sheet');
    const count = await steps(page);
    await whole(page);
    const take = async (press: () => Promise<void>): Promise<{ name: string; text: string; path: string }> => {
      const [download] = await Promise.all([page.waitForEvent('download'), press()]);
      const path = await download.path();
      return { name: download.suggestedFilename(), text: readFileSync(path, 'utf8'), path };
    };
    const csv = await take(() => page.keyboard.press('c'));
    expect(csv.name).toMatch(/increments\.csv$/);
    expect(csv.text.trimEnd().split('\r\n').length).toBe(count + 1);
    const plan = await take(() => page.keyboard.press('p'));
    const saved = JSON.parse(plan.text) as { steps: unknown[]; readouts: Record<string, { deg: (number | null)[] }> };
    expect(saved.steps.length).toBe(count);
    expect(saved.readouts['leftShoulder.elevation']!.deg.filter((deg) => deg !== null).length).toBe(count);
    const book = await take(() => page.keyboard.press('Control+s'));
    expect(book.name).toMatch(/\.nudgebook\.json$/);

    // On another machine (a fresh context has nothing stored) the file alone brings everything back but the footage.
    const other = await openPage('/');
    await other.page.getByRole('button', { name: /Open a clip/ }).waitFor();
    await openFile(other.page, { name: 'jar.nudgebook.json', mimeType: 'application/json', buffer: Buffer.from(book.text) });
    expect(await steps(other.page)).toBe(count);
    await other.close();
    await close();
  });

  it('puts the former book aside when the demo takes its place', async () => {
    const { page, close } = await openPage('/?demo');
    await steps(page);
    await page.keyboard.press('Shift+n');
    await page.getByText('Earlier books').waitFor();
    await saved(page);
    await page.goto(new URL('/', page.url()).href);
    await page.getByText('Earlier books').waitFor();
    await page.getByRole('button', { name: /Marla/ }).last().waitFor();
    await close();
  });

  it('says what is wrong with a bad file, and loses nothing', async () => {
    const { page, close } = await openPage('/?demo');
    const count = await steps(page);
    const offer = async (name: string, content: Buffer): Promise<string> => {
      await openFile(page, { name, mimeType: '', buffer: content });
      const strip = page.getByRole('alert');
      await strip.waitFor();
      const words = await strip.innerText();
      await strip.getByRole('button', { name: 'Dismiss' }).click();
      return words;
    };
    expect(await offer('empty.mp4', Buffer.alloc(0))).toMatch(/empty/i);
    expect(await offer('recipe.mp4', Buffer.from('flour and water\n'.repeat(300)))).toMatch(/recipe\.mp4/);
    expect(await offer('other.json', Buffer.from('{"format":"something else"}'))).toMatch(/book/i);
    expect(await steps(page)).toBe(count);
    await close();
  });

  it.each([{ width: 1440, height: 900 }, { width: 820, height: 1100 }])('has no accessibility fault that a machine can find at %o', async (size) => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { page, close } = await openPage('/', size);
    const faults = async (): Promise<string[]> => page.evaluate(async () => {
      interface Axe { run: (what: Document) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
      const { violations } = await (window as unknown as { axe: Axe }).axe.run(document);
      return violations.flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html.slice(0, 160)}`));
    });
    await page.getByRole('button', { name: /Open Marla/ }).waitFor();
    await page.evaluate(axe);
    expect(await faults(), 'empty').toEqual([]);
    await page.keyboard.press('d');
    await steps(page);
    for (const key of ['1', '2', '3', '4', '5']) {
      await page.keyboard.press(key);
      await stepAt(page);
      expect(await faults(), `screen ${key}`).toEqual([]);
    }
    await close();
  });
});
