/**
 * npm run clips: draws clips anew and writes each with its truth.
 *   tsx scripts/clips/render.ts [names…] [--set tuning|reporting|all|practice] [--missing] [--out DIR] [--still FRAME[,FRAME…]] [--truth]
 * --set makes the clips that are not kept with the project, in generated/clips; without it and without names: the four in
 * reference-clips. --missing leaves out those that are there. --still writes PNG pictures instead of clips; --truth only the truth files.
 */
import { existsSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { withPage } from './browser.ts';
import { clipFolder } from './clipFolder.ts';
import { frameCount, type Clip } from './clip.ts';
import { clipNamed, CLIPS, clipsToMake } from './clips.ts';
import { truthOf } from './truth.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    out: { type: 'string' }, still: { type: 'string' }, truth: { type: 'boolean', default: false },
    set: { type: 'string' }, missing: { type: 'boolean', default: false },
  },
});
const folderOf = (clip: Clip): string => values.out ?? clipFolder(clip);

async function writeTruth(clip: Clip): Promise<number> {
  const text = `${JSON.stringify(truthOf(clip))}\n`;
  await writeFile(join(folderOf(clip), `${clip.name}.truth.json`), text);
  return text.length;
}

async function writeStills(page: Page, clip: Clip, frames: readonly number[]): Promise<void> {
  for (const frame of frames) {
    const png = await page.evaluate(([name, at]) => window.clipsPage?.still(name, at), [clip.name, frame] as const);
    const file = join(folderOf(clip), `${clip.name}-${frame}.png`);
    await writeFile(file, Buffer.from(png ?? '', 'base64'));
    console.log(file);
  }
}

async function writeClip(page: Page, clip: Clip): Promise<number> {
  const frames = frameCount(clip);
  const tell = (message: { text(): string }): void => {
    const frame = /^frame (\d+)$/.exec(message.text())?.[1];
    if (frame !== undefined && Number(frame) % 10 === 9) process.stderr.write(`\r${clip.name}: ${Number(frame) + 1} of ${frames} `);
  };
  page.on('console', tell);
  const data = await page.evaluate((name) => window.clipsPage?.clip(name), clip.name);
  page.off('console', tell);
  const bytes = Buffer.from(data ?? '', 'base64');
  // Under another name until it is whole: others may be waiting for it.
  const file = join(folderOf(clip), `${clip.name}.webm`);
  await writeFile(`${file}.part`, bytes);
  await rename(`${file}.part`, file);
  process.stderr.write('\n');
  return bytes.length;
}

function chosen(): readonly Clip[] {
  if (positionals.length > 0) return positionals.map(clipNamed);
  return values.set === undefined ? CLIPS.filter((clip) => clip.committed) : clipsToMake(values.set);
}

const clips = chosen().filter((clip) => !values.missing || !existsSync(join(folderOf(clip), `${clip.name}.webm`)));
for (const clip of clips) await mkdir(folderOf(clip), { recursive: true });
if (values.truth) {
  for (const clip of clips) console.log(`${clip.name}: truth ${await writeTruth(clip)} bytes`);
} else {
  await withPage(async (page) => {
    for (const clip of clips) {
      const startedMs = performance.now();
      if (values.still !== undefined) {
        await writeStills(page, clip, values.still.split(',').map(Number));
        continue;
      }
      // The truth after the clip, so that an older clip is never beside a newer truth for long.
      const clipBytes = await writeClip(page, clip);
      const truthBytes = await writeTruth(clip);
      const seconds = (performance.now() - startedMs) / 1000;
      console.log(`${clip.name}: ${clipBytes} bytes, truth ${truthBytes} bytes, ${frameCount(clip)} frames in ${seconds.toFixed(0)} s`);
    }
  });
}
