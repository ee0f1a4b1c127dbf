/**
 * Retiming as an animator does it: a mark dragged, an exposure typed, a pause made longer, all of it undone.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage } from './harness.ts';

/** Waits until the plan is there and the body fitted to the take. */
async function whole(page: Page): Promise<void> {
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  await page.waitForFunction(() => document.querySelector('.job') === null && performance.getEntriesByName('fit').length > 0);
}

async function painted(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** The plan as it is saved, which waits for the one of the present settings. */
async function planText(page: Page): Promise<string> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('p')]);
  return readFileSync(await download.path(), 'utf8');
}

/** All that a saved plan says, but for its list of marks. */
function withoutMarks(text: string): unknown {
  const plan = JSON.parse(text) as { timing: Record<string, unknown> };
  return { ...plan, timing: { ...plan.timing, marks: [] } };
}

async function field(page: Page, label: string | RegExp, text: string): Promise<void> {
  const input = page.getByLabel(label, { exact: typeof label === 'string' });
  await input.fill(text);
  await input.press('Enter');
}

async function goTo(page: Page, step: number): Promise<void> {
  await page.keyboard.press('g');
  await page.keyboard.type(String(step));
  await page.keyboard.press('Enter');
  await painted(page);
}

const exposureOf = async (page: Page): Promise<number> => Number((await page.locator('.grip').first().getAttribute('aria-label'))!.match(/exposure (\d+)/)![1]);
const stepCount = async (page: Page): Promise<number> => Number(await page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuemax'));

describe('retiming', () => {
  it('a mark is dragged, typed, a pause made longer; undoing all of it gives the very plan back', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    const before = await planText(page);
    const count = await stepCount(page);
    const undo = page.locator('.undo-redo button').first();
    // Opening the take was an edit as well.
    const first = await undo.innerText();
    await goTo(page, 21);
    await page.keyboard.press('z');
    const grip = page.locator('.grip');
    expect(await grip.count()).toBe(1);
    // Step 21 on twos begins at exposure 41.
    expect(await exposureOf(page)).toBe(41);
    // It is listed, and changes nothing else yet.
    expect(withoutMarks(await planText(page))).toEqual(withoutMarks(before));

    // Three rows down, with a rest longer than two edits may lie apart: still one edit.
    const box = (await grip.boundingBox())!;
    const row = Number.parseFloat(await page.locator('.bench').evaluate((element) => (element as HTMLElement).style.getPropertyValue('--row')));
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y + row, { steps: 3 });
    await page.waitForTimeout(900);
    await page.mouse.move(x, y + 3 * row, { steps: 3 });
    await page.mouse.up();
    expect(await exposureOf(page)).toBe(47);
    // What follows moves along by as much as the mark.
    await page.waitForFunction((wanted) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === wanted, count + 3);

    await field(page, /^Exposure of the/, '56');
    await page.waitForFunction(() => document.querySelector('.grip')?.getAttribute('aria-label')?.includes('exposure 56'));
    // By hand it is moved to the exposure as well.
    await grip.focus();
    await page.keyboard.press('ArrowUp');
    expect(await exposureOf(page)).toBe(55);
    await page.keyboard.press('Shift+ArrowDown');
    expect(await exposureOf(page)).toBe(65);

    const longer = page.getByRole('button', { name: /^One step longer: pause/ }).first();
    await longer.waitFor();
    // Saving waits until the plan of the last key is there.
    await planText(page);
    const shorter = await stepCount(page);
    await longer.click();
    await page.waitForFunction((former) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === former + 1, shorter);
    expect(await planText(page)).not.toBe(before);

    let edits = 0;
    while ((await undo.innerText()) !== first) {
      await undo.click();
      edits += 1;
      expect(edits).toBeLessThan(10);
    }
    // The mark, the drag, the figure, the keys (pressed quickly, so one), the pause.
    expect(edits).toBe(5);
    expect(await grip.count()).toBe(0);
    expect(await planText(page)).toBe(before);
    expect(complaints).toEqual([]);
    await close();
  });

  it('refuses what can’t be, says why, and changes nothing', async () => {
    const { page, close } = await openPage('/?demo#/pace');
    await whole(page);
    await goTo(page, 1);
    await page.keyboard.press('z');
    await page.getByRole('alert').getByText(/first exposure/).waitFor();
    await page.getByRole('alert').getByRole('button', { name: 'Dismiss' }).click();
    await goTo(page, 11);
    await page.keyboard.press('z');
    await goTo(page, 21);
    await page.keyboard.press('z');
    // The second before the first is no timing.
    const second = page.getByLabel(/^Exposure of the/).nth(1);
    await second.fill('9');
    await second.press('Enter');
    await page.getByRole('alert').getByText(/stands between here and exposure 9/).waitFor();
    expect(await page.locator('.grip').nth(1).getAttribute('aria-label')).toMatch(/exposure 41/);
    // A locked mark stays where it is.
    await page.locator('.grip').nth(1).focus();
    await page.keyboard.press('l');
    await page.keyboard.press('ArrowDown');
    expect(await page.locator('.grip').nth(1).getAttribute('aria-label')).toMatch(/exposure 41, locked/);
    await close();
  });

  it('a timing is kept under a name, compared, and gone back to', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    const count = await stepCount(page);
    await page.getByRole('button', { name: 'Versions', exact: true }).click();
    await page.getByLabel('Keep this timing as').fill('as performed');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await goTo(page, 21);
    await page.keyboard.press('Shift+Z');
    await page.waitForFunction((former) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === former + 1, count);
    await page.getByRole('button', { name: 'Versions', exact: true }).click();
    await page.getByRole('button', { name: 'Compare', exact: true }).click();
    const row = page.getByRole('row', { name: /^steps / });
    expect((await row.innerText()).split(/\s+/)).toEqual(['steps', String(count + 1), String(count)]);
    await page.getByRole('button', { name: 'Go back to it' }).click();
    await page.waitForFunction((wanted) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === wanted, count);
    expect(complaints).toEqual([]);
    await close();
  });

  it.each([{ width: 1440, height: 900 }, { width: 820, height: 1100 }])('has no accessibility fault that a machine can find at %o', async (size) => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { page, close } = await openPage('/?demo#/pace', size);
    await whole(page);
    await goTo(page, 21);
    await page.keyboard.press('z');
    await page.evaluate(axe);
    const faults = async (): Promise<string[]> => page.evaluate(async () => {
      interface Axe { run: (what: Document) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
      const { violations } = await (window as unknown as { axe: Axe }).axe.run(document);
      return violations.flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html.slice(0, 160)}`));
    });
    const panels = page.locator('.pace-panels button');
    for (let k = 0; k < await panels.count(); k += 1) {
      await panels.nth(k).click();
      await painted(page);
      expect(await faults(), await panels.nth(k).innerText()).toEqual([]);
    }
    await close();
  });
});
