/**
 * `npm run pictures`: the pictures of the app in the docs, taken of the app itself with the demo take.
 *
 *     npm run pictures -- [--out DIR] [--only NAME] [--seen-as EYES]
 *
 * `--out`: all states and widths into DIR, to be looked at, instead of the docs' few; `--only`: these pictures alone;
 * `--seen-as`: as by eyes without one kind of cones (`colourBlind.ts`).
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { launchBrowser } from '../browser/launch.ts';
import { buildApp } from '../serve/build.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { serveApp } from '../serve/serveApp.ts';
import { SEEN_AS, seeAs } from './colourBlind.ts';

const { values } = parseArgs({ options: { out: { type: 'string' }, only: { type: 'string', multiple: true }, 'seen-as': { type: 'string' } } });
const eyes = SEEN_AS.find((name) => name === values['seen-as']);
if (values['seen-as'] !== undefined && (eyes === undefined || values.out === undefined)) throw new Error(`--seen-as takes ${SEEN_AS.join(', ')}, with --out.`);
const folder = values.out ?? join(PROJECT_FOLDER, 'docs', 'pictures');
mkdirSync(folder, { recursive: true });

const WIDE = { width: 1440, height: 900 };
const NARROW = { width: 820, height: 1100 };

interface Shot {
  readonly name: string;
  readonly address: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly keys?: readonly string[];
  /** Buttons pressed after the keys, by their names. */
  readonly press?: readonly string[];
  /** Goes into the docs. */
  readonly inDocs?: boolean;
  readonly badFile?: boolean;
}

/** To the moment of the reach, at a height of rows that shows the whole curve. */
const AT_THE_REACH = ['g', '2', '1', 'Enter'];

const SHOTS: readonly Shot[] = [
  { name: 'take', address: '?demo#/take', size: WIDE, keys: AT_THE_REACH, inDocs: true },
  { name: 'pace', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, inDocs: true },
  { name: 'put-right', address: '?demo#/take', size: WIDE, keys: [...AT_THE_REACH, 'j', 'j', 'j', 'j', 'j', 'j', 'Shift+ArrowRight', 'Escape'], inDocs: true },
  { name: 'put-right-narrow', address: '?demo#/take', size: NARROW, keys: [...AT_THE_REACH, 'j', 'j', 'j', 'j', 'j', 'j'] },
  { name: 'unsure', address: '?demo#/take', size: WIDE, keys: [...AT_THE_REACH, 'u'] },
  { name: 'unsure-narrow', address: '?demo#/take', size: NARROW, keys: [...AT_THE_REACH, 'u'] },
  { name: 'sheet', address: '?demo#/sheet', size: WIDE, keys: AT_THE_REACH, inDocs: true },
  { name: 'puppet', address: '?demo#/puppet', size: WIDE, keys: AT_THE_REACH, inDocs: true },
  { name: 'puppet-front', address: '?demo#/puppet', size: WIDE, keys: [...AT_THE_REACH, 'v', 'l'] },
  { name: 'puppet-measures', address: '?demo#/puppet', size: WIDE, keys: AT_THE_REACH, press: ['Measures', 'left knee'] },
  { name: 'puppet-ruler', address: '#/puppet', size: WIDE, press: ['Measures', 'Measure with a ruler'] },
  { name: 'puppet-sources', address: '?demo#/puppet', size: WIDE, keys: AT_THE_REACH, press: ['Sources', 'left elbow'] },
  { name: 'puppet-curves', address: '?demo#/puppet', size: WIDE, keys: AT_THE_REACH, press: ['left elbow', 'Hand curves', 'Key at this step'] },
  { name: 'puppet-narrow', address: '?demo#/puppet', size: NARROW, keys: AT_THE_REACH },
  { name: 'puppet-measures-narrow', address: '?demo#/puppet', size: NARROW, keys: AT_THE_REACH, press: ['Measures', 'left knee'] },
  { name: 'puppet-curves-narrow', address: '?demo#/puppet', size: NARROW, keys: AT_THE_REACH, press: ['left elbow', 'Hand curves', 'Key at this step'] },
  { name: 'puppet-red', address: '?demo#/puppet', size: WIDE, keys: [...AT_THE_REACH, 'r'] },
  { name: 'empty-puppet', address: '#/puppet', size: WIDE },
  { name: 'empty-puppet-narrow', address: '#/puppet', size: NARROW },
  { name: 'take-narrow', address: '?demo#/take', size: NARROW, keys: AT_THE_REACH },
  { name: 'pace-narrow', address: '?demo#/pace', size: NARROW, keys: AT_THE_REACH },
  { name: 'sheet-narrow', address: '?demo#/sheet', size: NARROW, keys: AT_THE_REACH },
  { name: 'pace-marks', address: '?demo#/pace', size: WIDE, keys: [...AT_THE_REACH, 'z', 'PageDown', 'z', 'Shift+Z', 'Shift+Z'] },
  { name: 'pace-marks-narrow', address: '?demo#/pace', size: NARROW, keys: [...AT_THE_REACH, 'z', 'PageDown', 'z', 'Shift+Z'] },
  { name: 'pace-limbs', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Limbs'] },
  { name: 'pace-limbs-narrow', address: '?demo#/pace', size: NARROW, keys: AT_THE_REACH, press: ['Limbs'] },
  { name: 'pace-readouts', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Readouts'] },
  { name: 'pace-readouts-narrow', address: '?demo#/pace', size: NARROW, keys: AT_THE_REACH, press: ['Readouts'] },
  { name: 'pace-moves', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Moves'] },
  { name: 'pace-pauses', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Pauses', 'gentle'] },
  { name: 'pace-holds', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Holds', 'Propose from what moves on screen'] },
  { name: 'pace-play', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Play', 'Stopwatch on'] },
  { name: 'pace-versions', address: '?demo#/pace', size: WIDE, keys: AT_THE_REACH, press: ['Versions', 'Keep', 'Compare'] },
  { name: 'poise', address: '?demo#/poise', size: WIDE, keys: AT_THE_REACH, inDocs: true },
  { name: 'poise-narrow', address: '?demo#/poise', size: NARROW, keys: AT_THE_REACH },
  { name: 'poise-correct', address: '?demo#/poise', size: WIDE, keys: AT_THE_REACH, press: ['Find the smallest change'] },
  { name: 'poise-correct-narrow', address: '?demo#/poise', size: NARROW, keys: AT_THE_REACH, press: ['Find the smallest change'] },
  { name: 'poise-air', address: '?demo#/poise', size: WIDE, keys: AT_THE_REACH, press: ['In the air'] },
  { name: 'poise-needs', address: '?demo#/poise', size: WIDE, keys: [...AT_THE_REACH, 'PageDown', 'PageDown'], press: ['Hardware'] },
  { name: 'poise-touches', address: '?demo#/poise', size: WIDE, keys: AT_THE_REACH, press: ['Touches', 'Tied down'] },
  { name: 'poise-carries', address: '?demo#/poise', size: NARROW, keys: AT_THE_REACH, press: ['Carries', 'Let it carry this'] },
  { name: 'poise-red', address: '?demo#/poise', size: WIDE, keys: [...AT_THE_REACH, 'r'] },
  { name: 'empty-poise', address: '#/poise', size: WIDE },
  { name: 'pace-red', address: '?demo#/pace', size: WIDE, keys: [...AT_THE_REACH, 'r'] },
  { name: 'empty', address: '', size: WIDE },
  { name: 'empty-narrow', address: '', size: NARROW },
  { name: 'empty-pace', address: '#/pace', size: WIDE },
  { name: 'keys', address: '', size: WIDE, keys: ['?'] },
  { name: 'error', address: '?demo#/take', size: WIDE, badFile: true },
  { name: 'error-narrow', address: '?demo#/take', size: NARROW, badFile: true },
];

/** Waits until nothing is at work and the picture of the frame is there. */
async function settle(page: Page, hasTake: boolean): Promise<void> {
  if (hasTake) {
    await page.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 0);
    await page.waitForFunction(() => document.querySelector('progress') === null);
  }
  // Decoding of the frame at the playhead has no mark of its own in the page.
  await page.waitForTimeout(2_500);
}

await buildApp((line) => console.log(line));
const served = await serveApp({ host: '127.0.0.1', port: 0 });
const browser = await launchBrowser();
try {
  for (const shot of SHOTS.filter(({ inDocs, name }) => (values.out !== undefined || inDocs === true) && (values.only?.includes(name) ?? true))) {
    const context = await browser.newContext({ viewport: shot.size });
    const page = await context.newPage();
    await page.goto(served.url + shot.address);
    await settle(page, shot.address.includes('demo'));
    for (const key of shot.keys ?? []) await page.keyboard.press(key);
    for (const name of shot.press ?? []) await page.getByRole('button', { name, exact: true }).click();
    if (shot.badFile) {
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Control+o')]);
      await chooser.setFiles({ name: 'recipe.mp4', mimeType: 'video/mp4', buffer: Buffer.from('flour, water, salt\n'.repeat(300)) });
    }
    await page.waitForTimeout(1_500);
    // What was put right is fitted anew.
    if (shot.keys !== undefined) await page.waitForFunction(() => document.querySelector('progress') === null);
    if (eyes !== undefined) await seeAs(page, eyes);
    const file = `${shot.name}${eyes === undefined ? '' : `-${eyes}`}.png`;
    await page.screenshot({ path: join(folder, file) });
    console.log(file);
    await context.close();
  }
} finally {
  await browser.close();
  await served.close();
}
