// npm run clips: draws the reference clips anew and writes each with its truth.
//   tsx scripts/clips/render.ts [names…] [--out DIR] [--still FRAME[,FRAME…]] [--truth]
// Without names: all clips. --still writes PNG pictures instead of clips; --truth only the truth files.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { withPage } from './browser.ts';
import { clipNamed, CLIPS, frameCount, type Clip } from './clips.ts';
import { truthOf } from './truth.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { out: { type: 'string' }, still: { type: 'string' }, truth: { type: 'boolean', default: false } },
});
const out = values.out ?? fileURLToPath(new URL('../../reference-clips', import.meta.url));

async function writeTruth(clip: Clip): Promise<number> {
  const text = `${JSON.stringify(truthOf(clip))}\n`;
  await writeFile(join(out, `${clip.name}.truth.json`), text);
  return text.length;
}

async function writeStills(page: Page, clip: Clip, frames: readonly number[]): Promise<void> {
  for (const frame of frames) {
    const png = await page.evaluate(([name, at]) => window.clipsPage?.still(name, at), [clip.name, frame] as const);
    const file = join(out, `${clip.name}-${frame}.png`);
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
  await writeFile(join(out, `${clip.name}.webm`), bytes);
  process.stderr.write('\n');
  return bytes.length;
}

const clips = positionals.length === 0 ? CLIPS : positionals.map(clipNamed);
await mkdir(out, { recursive: true });
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
      const [truthBytes, clipBytes] = [await writeTruth(clip), await writeClip(page, clip)];
      const seconds = (performance.now() - startedMs) / 1000;
      console.log(`${clip.name}: ${clipBytes} bytes, truth ${truthBytes} bytes, ${frameCount(clip)} frames in ${seconds.toFixed(0)} s`);
    }
  });
}
