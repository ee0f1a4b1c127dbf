/**
 * Retiming as an animator does it: a mark dragged, an exposure typed, a pause made longer, all of it undone.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage } from './harness.ts';

/** Waits until the plan on the screen is that of the book. */
async function made(page: Page): Promise<void> {
  await page.waitForFunction(() => document.documentElement.dataset['plan'] === 'made');
}

/** Waits until the plan is there and the body fitted to the take. */
async function whole(page: Page): Promise<void> {
  await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
  await page.waitForFunction(() => document.querySelector('.job') === null && performance.getEntriesByName('fit').length > 0);
  await made(page);
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
    // High enough that the rows need not scroll while the mark is dragged: where they do, they take it along.
    const { page, close, complaints } = await openPage('/?demo#/pace', { width: 1440, height: 1300 });
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

    // Of the whole body there need be no pause: some limb moves all the time.
    await page.getByLabel('Moves and pauses of').selectOption('leftArm');
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

  it('a mark stays under the pointer where the rows scroll beneath it, and Escape puts it back', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    await goTo(page, 21);
    await page.keyboard.press('z');
    const before = await planText(page);
    const grip = page.locator('.grip');
    const middle = async (): Promise<number> => {
      const box = (await grip.boundingBox())!;
      return box.y + box.height / 2;
    };
    const rowsTop = (): Promise<number> => page.locator('.bench').evaluate((element) => element.scrollTop);
    const bench = (await page.locator('.bench').boundingBox())!;
    const row = Number.parseFloat(await page.locator('.bench').evaluate((element) => (element as HTMLElement).style.getPropertyValue('--row')));
    const x = (await grip.boundingBox())!.x + 20;
    const low = bench.y + bench.height - 14;
    await page.mouse.move(x, await middle());
    await page.mouse.down();
    await page.mouse.move(x, low - row, { steps: 4 });
    await page.mouse.move(x, low, { steps: 2 });
    await page.waitForFunction(() => document.querySelector('.bench')!.scrollTop > 100);
    // A mark stands on whole exposures, two of them in a row: it is at most half an exposure from the pointer, but for what is painted next.
    expect(Math.abs((await middle()) - low)).toBeLessThan(row);
    // Away from the edge the rows lie still, and it goes with the pointer.
    const high = bench.y + bench.height / 2;
    await page.mouse.move(x, high, { steps: 3 });
    await painted(page);
    const still = await rowsTop();
    expect(Math.abs((await middle()) - high)).toBeLessThanOrEqual(row / 4 + 1);
    await page.waitForTimeout(300);
    expect(await rowsTop()).toBe(still);
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.querySelector('.grip')?.getAttribute('aria-label')?.includes('exposure 41'));
    await page.mouse.move(x, high + 2 * row);
    await page.mouse.up();
    expect(await exposureOf(page)).toBe(41);
    expect(await planText(page)).toBe(before);
    expect(complaints).toEqual([]);
    await close();
  });

  it('the span is drawn over the rows, its ends dragged and moved by keys, and Escape lets it go', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    expect(await page.locator('.span-strip').count()).toBe(0);
    await page.getByRole('button', { name: 'Limbs', exact: true }).click();
    const ends = async (): Promise<string> => (await page.locator('.span-end').allInnerTexts()).join('–');
    const count = await stepCount(page);
    expect(await ends()).toBe(`1–${count}`);
    const strip = (await page.locator('.span-strip').boundingBox())!;
    const x = strip.x + strip.width / 2;
    const row = strip.height / count;
    const at = (step: number): number => strip.y + (step - 0.5) * row;
    await page.mouse.move(x, at(7));
    await page.mouse.down();
    await page.mouse.move(x, at(9));
    await page.mouse.move(x, at(12));
    expect(await ends()).toBe('7–12');
    await page.keyboard.press('Escape');
    expect(await ends()).toBe(`1–${count}`);
    await page.mouse.move(x, at(14));
    await page.mouse.up();
    expect(await ends()).toBe(`1–${count}`);

    // Upward as well; what is compared goes along.
    await page.mouse.move(x, at(12));
    await page.mouse.down();
    await page.mouse.move(x, at(7), { steps: 3 });
    await page.mouse.up();
    expect(await ends()).toBe('7–12');
    expect(await page.getByLabel('From step', { exact: true }).inputValue()).toBe('7');
    await page.locator('.span-light').waitFor();
    // One end beyond the other turns them round.
    const end = (await page.getByRole('slider', { name: 'Span from step' }).boundingBox())!;
    await page.mouse.move(x, end.y + 8);
    await page.mouse.down();
    await page.mouse.move(x, end.y + 8 + 9 * row, { steps: 3 });
    await page.mouse.up();
    expect(await ends()).toBe('12–16');
    await page.getByRole('slider', { name: 'Span to step' }).focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    expect(await ends()).toBe('12–27');
    await page.getByRole('slider', { name: 'Span from step' }).focus();
    await page.keyboard.press('Home');
    expect(await ends()).toBe('1–27');
    expect(await page.getByLabel('To step', { exact: true }).inputValue()).toBe('27');
    await page.getByRole('button', { name: 'The whole plan' }).click();
    expect(await ends()).toBe(`1–${count}`);
    expect(complaints).toEqual([]);
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
    // A joint of one's choice in both, as a whole line and a dashed one: the held step sets them apart.
    const chart = page.getByRole('img', { name: /^Angle of the right elbow over the film: on the bench as a whole line, as performed dashed/ });
    await page.getByLabel('Joint', { exact: true }).selectOption('rightElbow');
    await chart.waitFor();
    const [whole1, dashed] = [await chart.locator('.timing-first').getAttribute('d'), await chart.locator('.timing-second').getAttribute('d')];
    expect(whole1!.length).toBeGreaterThan(200);
    expect(dashed).not.toBe(whole1);
    expect(whole1).not.toContain('NaN');
    await page.getByRole('button', { name: 'Go back to it' }).click();
    await page.waitForFunction((wanted) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === wanted, count);
    expect(complaints).toEqual([]);
    await close();
  });

  it('marks are proposed where something happens, of the kinds that are wanted, in one edit', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    const before = await planText(page);
    await page.getByLabel('Moves and pauses of').selectOption('leftArm');
    const press = page.getByRole('button', { name: /^Mark these \d+$/ });
    const count = async (): Promise<number> => Number((await press.innerText()).match(/\d+/)![0]);
    const all = await count();
    await page.getByRole('checkbox', { name: /^extremes of joints/ }).uncheck();
    const ends = await count();
    expect(ends).toBeLessThan(all);
    await page.getByRole('checkbox', { name: /^extremes of joints/ }).check();
    await page.getByRole('checkbox', { name: /^(starts|ends) of moves/ }).first().uncheck();
    await page.getByRole('checkbox', { name: /^ends of moves/ }).uncheck();
    const extremes = await count();
    // fewer joints have fewer extremes
    await page.getByText(/^Extremes of \d+ of \d+ joints$/).click();
    await page.locator('.snap-joints').first().getByRole('checkbox', { name: 'left wrist' }).uncheck();
    await page.waitForFunction((former) => Number(/\d+/.exec([...document.querySelectorAll('button')].find((one) => /^Mark (these|this)/.test(one.innerText))?.innerText ?? '')?.[0] ?? 1) < former, extremes);
    await press.click();
    await page.locator('.side-panel').getByText(/^\d+ marks placed\.$/).waitFor();
    expect(await page.getByRole('row').filter({ has: page.getByLabel(/^Exposure of the/) }).count()).toBeGreaterThan(1);
    // they are placed where they fall, so nothing moves
    expect(withoutMarks(await planText(page))).toEqual(withoutMarks(before));
    await page.locator('.undo-redo button').first().click();
    expect(await planText(page)).toBe(before);
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
    const panels = page.locator('.panel-tabs button');
    for (let k = 0; k < await panels.count(); k += 1) {
      await panels.nth(k).click();
      await painted(page);
      expect(await faults(), await panels.nth(k).innerText()).toEqual([]);
    }
    await close();
  });
});

describe('readouts', () => {
  it('of a chosen joint run along the rows, say what the saved plan says, and follow the playhead', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    await page.getByRole('button', { name: 'Readouts', exact: true }).click();
    await page.getByLabel('Read out', { exact: true }).selectOption('leftShoulder');
    const heads = page.locator('.readout-head');
    await heads.first().waitFor();
    const { readouts } = JSON.parse(await planText(page)) as { readouts: Record<string, { joint: string; label: string; source: string; deg: (number | null)[]; zoneSteps: number[] }> };
    const own = Object.values(readouts).filter(({ joint }) => joint === 'leftShoulder');
    expect(await heads.count()).toBe(own.length);
    for (const step of [1, 21, 40]) {
      await goTo(page, step);
      for (let k = 0; k < own.length; k += 1) {
        const { deg, label, source, zoneSteps } = own[k]!;
        const text = (await heads.nth(k).innerText()).replaceAll('−', '-');
        expect(text.toLowerCase()).toContain(`${label.toLowerCase()}, °`);
        expect(text).toContain(source);
        const value = Number(/^~?(-?[\d.]+)°/m.exec(text)![1]);
        // whole turns are counted on within a zone alike; one place is shown
        expect(Math.abs(value - deg[step - 1]!), `${label} at ${step}`).toBeLessThan(0.06);
        expect(text.includes('can’t be told'), `${label} at ${step}`).toBe(zoneSteps.includes(step));
      }
    }
    // With the keyboard: the next joint of the list, an elbow with its one angle.
    await page.getByLabel('Read out', { exact: true }).focus();
    await page.keyboard.press('ArrowDown');
    await page.getByRole('img', { name: /^left elbow: flexion, .* degrees, over the steps. In degrees; positive: bent. Convention: Wu et al. 2005/ }).waitFor();
    // The thigh hangs for long: where the direction of its swing can't be told, the chart says so.
    await page.getByLabel('Read out', { exact: true }).selectOption('leftHip');
    await page.locator('.readout-columns .zone-word').first().waitFor();
    for (const path of await page.locator('.readout-columns path').all()) expect(await path.getAttribute('d') ?? '').not.toContain('NaN');
    // A retimed plan is read anew.
    const count = await stepCount(page);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('Shift+Z');
    await page.waitForFunction((former) => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) === former + 1, count);
    expect(complaints).toEqual([]);
    await close();
  });
});

interface Clicked {
  /** Seconds of the audio clock for which clicks were asked, and by how much each was ahead. */
  readonly at: number[];
  readonly ahead: number[];
}

describe('a second opinion', () => {
  const clicked = (page: Page): Promise<Clicked> => page.evaluate(() => (window as unknown as { clicked: Clicked }).clicked);
  const stepNow = async (page: Page): Promise<number> => Number(await page.getByRole('slider', { name: 'Steps' }).getAttribute('aria-valuenow'));
  const press = (page: Page, name: string): Promise<void> => page.getByRole('button', { name, exact: true }).click();

  it('plays forwards and backwards, looped, with the puppet beside the take, and clicks on the audio clock', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await page.addInitScript(() => {
      const heard = { at: [] as number[], ahead: [] as number[] };
      (window as unknown as { clicked: typeof heard }).clicked = heard;
      const start = OscillatorNode.prototype.start;
      OscillatorNode.prototype.start = function (when = 0): void {
        heard.at.push(when);
        heard.ahead.push(when - this.context.currentTime);
        start.call(this, when);
      };
    });
    await page.reload();
    await whole(page);
    await press(page, 'Play');
    await page.getByRole('img', { name: /^The puppet at the playhead/ }).waitFor();
    expect(await page.locator('.pace-picture canvas[role=img]').count()).toBe(2);
    await press(page, 'take and skeleton');
    expect(await page.locator('.stage-box').count()).toBe(0);
    await press(page, 'puppet');
    expect(await page.locator('.pace-picture .picture').count()).toBe(1);
    await press(page, 'both');
    await press(page, 'each step');
    await goTo(page, 1);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('Space');
    await page.waitForFunction(() => (window as unknown as { clicked: { at: number[] } }).clicked.at.length > 12);
    await page.keyboard.press('Space');
    const { at, ahead } = await clicked(page);
    // On twos at 24 a step lasts 1/12 s; the first may have been due while the sound was turned on.
    for (let k = 2; k < at.length; k += 1) expect(at[k]! - at[k - 1]!).toBeCloseTo(1 / 12, 3);
    expect(Math.max(...ahead)).toBeGreaterThan(0.1);
    // a busy page says where it stopped a frame or two later
    await painted(page);
    const stopped = await stepNow(page);
    expect(stopped).toBeGreaterThan(1);
    await page.waitForTimeout(300);
    expect(await stepNow(page)).toBe(stopped);

    // Backwards from the first step begins at the last.
    await press(page, 'off');
    await press(page, 'backwards');
    await goTo(page, 30);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('Space');
    await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuenow')) < 27);
    await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuenow')) > 50);
    await page.keyboard.press('Space');
    expect(complaints).toEqual([]);
    await close();
  });

  it('taps of the space bar are counted, become marks, and undo gives the very plan back', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    const before = await planText(page);
    await goTo(page, 11);
    await press(page, 'Play');
    await press(page, 'Stopwatch on');
    for (const waitMs of [0, 500, 700]) {
      await page.waitForTimeout(waitMs);
      await page.keyboard.press('Space');
    }
    const rows = page.getByRole('table', { name: 'Taps' }).getByRole('row');
    expect(await rows.count()).toBe(4);
    const exposures = await Promise.all([1, 2, 3].map(async (k) => Number(await rows.nth(k).getByRole('cell').nth(1).innerText())));
    // The first at the playhead's step, the others by the clock: 24 a second, and a machine that is busy.
    expect(exposures[0]).toBe(21);
    expect(exposures[1]! - exposures[0]!).toBeGreaterThanOrEqual(12);
    expect(exposures[2]! - exposures[1]!).toBeGreaterThanOrEqual(16);
    await press(page, 'Take the last tap back');
    expect(await rows.count()).toBe(3);
    await press(page, 'Make marks of the taps');
    await page.locator('.side-panel').getByText(/^2 marks made/).waitFor();
    expect(await page.locator('.grip').count()).toBe(2);
    expect(await exposureOf(page)).toBe(21);
    await press(page, 'Stopwatch off');
    await page.locator('.undo-redo button').first().click();
    expect(await page.locator('.grip').count()).toBe(0);
    expect(await planText(page)).toBe(before);
    expect(complaints).toEqual([]);
    await close();
  });

  it('an action can be tapped along without footage, and says why there are no marks yet', async () => {
    const { page, close, complaints } = await openPage('/#/pace');
    await press(page, 'Stopwatch on');
    await page.keyboard.press('Space');
    await page.waitForTimeout(300);
    await page.keyboard.press('Space');
    expect(await page.getByRole('table', { name: 'Taps' }).getByRole('row').count()).toBe(3);
    expect(await page.getByRole('button', { name: 'Make marks of the taps' }).isDisabled()).toBe(true);
    await page.getByText(/Open a clip, and these taps can become marks/).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });
});

describe('with the keyboard alone', () => {
  /** Presses Tab until what is wanted has the focus. */
  async function tabTo(page: Page, selector: string, words: string): Promise<void> {
    for (let k = 0; k < 250; k += 1) {
      const there = await page.evaluate(([css, text]) => {
        const element = document.activeElement as HTMLElement | null;
        return element?.matches(css!) === true && `${element.getAttribute('aria-label') ?? ''} ${(element as HTMLInputElement).labels?.[0]?.textContent ?? ''} ${element.textContent ?? ''}`.includes(text!);
      }, [selector, words]);
      if (there) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab never comes to ${selector} ${words}`);
  }

  it('a mark is moved, its exposure typed, a timing kept and compared', async () => {
    const { page, close, complaints } = await openPage('/?demo#/pace');
    await whole(page);
    await goTo(page, 21);
    await page.keyboard.press('z');
    // Keys go from mark to mark, from anywhere; the one at the playhead comes first.
    await goTo(page, 41);
    await page.keyboard.press('z');
    await page.keyboard.press('Home');
    const held = (): Promise<string | null | undefined> => page.evaluate(() => document.activeElement?.closest('.grip')?.getAttribute('aria-label'));
    const holds = (exposure: number): Promise<unknown> => page.waitForFunction((at) => document.activeElement?.closest('.grip')?.getAttribute('aria-label')?.includes(`exposure ${at}`), exposure);
    await page.keyboard.press('Shift+>');
    await holds(41);
    await page.keyboard.press('Shift+>');
    await holds(81);
    // Out of sight before, it is in sight now, and so is its moment.
    const box = (await page.locator('.grip:focus').boundingBox())!;
    const bench = (await page.locator('.bench').boundingBox())!;
    expect(box.y).toBeGreaterThan(bench.y + (await page.locator('.bench-head').boundingBox())!.height);
    expect(box.y + box.height).toBeLessThan(bench.y + bench.height);
    await page.waitForFunction(() => document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuenow') === '41');
    await page.keyboard.press('Shift+>');
    expect(await held()).toContain('exposure 81');
    await page.keyboard.press('Delete');
    // From within a field too, which goes on from the playhead.
    await page.keyboard.press('Shift+PageUp');
    await holds(41);
    await tabTo(page, '.mark-rows input', 'Exposure of the');
    await page.keyboard.press('Shift+PageUp');
    await holds(41);
    await made(page);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    expect(await exposureOf(page)).toBe(52);
    await made(page);
    // the focus stays where it was, or the next key would be lost
    await tabTo(page, '.mark-rows input', 'Exposure of the');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('45');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('.grip')?.getAttribute('aria-label')?.includes('exposure 45'));
    await made(page);
    await tabTo(page, '.panel-tabs button', 'Versions');
    await page.keyboard.press('Enter');
    await tabTo(page, '.side-panel input', 'Keep this timing as');
    await page.keyboard.type('later reach');
    await tabTo(page, '.side-panel button', 'Keep');
    await page.keyboard.press('Enter');
    await tabTo(page, '.side-panel button', 'Compare');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'later reach, beside what is on the bench' }).waitFor();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await page.waitForFunction(() => document.querySelector('.grip')?.getAttribute('aria-label')?.includes('exposure 52'));
    expect(complaints).toEqual([]);
    await close();
  });
});
