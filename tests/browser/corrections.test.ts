/** The take put right by hand: a joint dragged, an angle typed, depth and a foot turned by key; undone, everything is as before. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage } from './harness.ts';

/** Waits until the body is fitted and nothing is under way. */
async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  await page.getByText('fitted', { exact: false }).first().waitFor();
  // A fit begins in the same moment as the edit, and its bar is there at once.
  await page.waitForFunction(() => document.querySelector('.job') === null, undefined, { timeout: 60_000 });
  // The plan of the fitted body comes a moment later.
  await page.waitForFunction(() => document.documentElement.dataset['plan'] === 'made', undefined, { timeout: 60_000 });
}

/** The steps as plan.json has them. */
async function planSteps(page: Page): Promise<unknown> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('p')]);
  return (JSON.parse(readFileSync(await download.path(), 'utf8')) as { steps: unknown }).steps;
}

async function middleOf(page: Page, joint: string): Promise<{ x: number; y: number }> {
  // Handles follow the picture, which is painted with the next display frame.
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  const box = await page.locator(`[data-joint=${joint}]`).boundingBox();
  if (box === null) throw new Error(`${joint} is not in the picture`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

describe('putting the take right by hand', () => {
  it('drags a joint, types an angle, turns depth and a foot by key, lists it all, and undoes it to the plan before', async () => {
    const { page, close, complaints } = await openPage('/?demo');
    await settled(page);
    await page.keyboard.press('g');
    await page.keyboard.type('21');
    await page.keyboard.press('Enter');
    const before = await planSteps(page);

    const from = await middleOf(page, 'leftElbow');
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 20, from.y + 10, { steps: 3 });
    await page.mouse.up();
    await page.getByText(/left elbow placed at 1\.67 s/).first().waitFor();
    const to = await middleOf(page, 'leftElbow');
    expect(Math.hypot(to.x - from.x - 20, to.y - from.y - 10)).toBeLessThan(1.5);
    // The former body stays on the screen while the fit runs anew.
    await settled(page);

    await page.keyboard.press('Escape');
    await page.keyboard.press('y');
    await page.keyboard.type('25');
    await page.keyboard.press('Enter');
    await page.getByText(/left elbow 25° at 1\.67 s/).first().waitFor();
    await page.keyboard.press('t');
    await page.getByText(/left arm upper bone turned in depth/).first().waitFor();
    await page.keyboard.press('e');
    await page.getByText(/right foot stands from/).first().waitFor();
    // Moved on by key, with the arrows that are the playhead's otherwise.
    await page.keyboard.press('j');
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByText(/right elbow placed at 1\.67 s/).first().waitFor();
    await page.keyboard.press('Escape');
    await settled(page);
    expect(await page.getByRole('button', { name: /^Take back: / }).count()).toBe(5);
    await page.getByRole('slider', { name: 'Steps' }).and(page.locator('[aria-valuenow="21"]')).waitFor();
    expect(await page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuetext')).toContain('put right by hand');
    expect(await planSteps(page)).not.toEqual(before);

    await page.getByRole('button', { name: /^Take back: right elbow/ }).click();
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    for (let i = 0; i < 6; i += 1) await page.keyboard.press('Control+z');
    await page.getByText('None yet.').waitFor();
    await settled(page);
    expect(await planSteps(page)).toEqual(before);
    expect(complaints).toEqual([]);
    await close();
  });

  it('goes through what is unsure by key, and says why and what would settle it', async () => {
    const { page, close } = await openPage('/?demo');
    await settled(page);
    await page.keyboard.press('u');
    const here = page.locator('[data-here=true]').first();
    await here.waitFor();
    expect(await here.innerText()).toMatch(/±\d+°[\s\S]+\.[\s\S]+\./);
    await close();
  });

  it.each([{ width: 1440, height: 900 }, { width: 820, height: 1100 }])('has no accessibility fault that a machine can find at %o', async (size) => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { page, close } = await openPage('/?demo', size);
    await settled(page);
    await page.evaluate(axe);
    for (const side of [/^Put right/, /^Unsure/]) {
      await page.getByRole('button', { name: side }).click();
      const faults = await page.evaluate(async () => {
        interface Axe { run: (what: Document) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
        const { violations } = await (window as unknown as { axe: Axe }).axe.run(document);
        return violations.flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html.slice(0, 160)}`));
      });
      expect(faults, String(side)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), 'nothing wider than the window').toBe(true);
    }
    await close();
  });
});
