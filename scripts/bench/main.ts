/**
 * `npm run bench`: times what a person waits for, and prints it as Markdown.
 *
 *     npm run bench -- [--only pose,fit,correct,plan,puppet,retime,balance,poise,change,drag,page,playhead] [--write]
 *
 * --write puts the result, with the date and the facts of the machine, into docs/benchmarks.md. Absolute times belong to the
 * machine; ratios carry over better.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser } from 'playwright-core';
import { launchBrowser } from '../browser/launch.ts';
import { buildApp } from '../serve/build.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { serveApp } from '../serve/serveApp.ts';
import { serveBenchPage } from './benchPage.ts';
import { replaceBetweenMarkers } from './document/betweenMarkers.ts';
import { markdownTable } from './document/markdownTable.ts';
import { balanceSpeed } from './balanceSpeed.ts';
import { changeSpeed } from './changeSpeed.ts';
import { correctSpeed } from './correctSpeed.ts';
import { dragSpeed } from './dragSpeed.ts';
import { fitSpeed } from './fitSpeed.ts';
import { loadOfOthers, machineFacts } from './machine.ts';
import { pageLoad } from './pageLoad.ts';
import { planSpeed } from './planSpeed.ts';
import { playheadSpeed } from './playheadSpeed.ts';
import { poiseSpeed } from './poiseSpeed.ts';
import { poseSpeed } from './poseSpeed.ts';
import { puppetSpeed } from './puppetSpeed.ts';
import type { BenchResult } from './result.ts';
import { retimeSpeed } from './retimeSpeed.ts';

const DOCUMENT = join(PROJECT_FOLDER, 'docs', 'benchmarks.md');

type Bench = (browser: Browser, url: string, say: (line: string) => void) => Promise<BenchResult>;

/** Each with the server it needs: the bench page, or the app as it is served to people. */
const BENCHES: Readonly<Record<string, { readonly on: 'bench' | 'app'; readonly run: Bench }>> = {
  pose: { on: 'bench', run: poseSpeed },
  fit: { on: 'bench', run: fitSpeed },
  correct: { on: 'bench', run: correctSpeed },
  plan: { on: 'bench', run: planSpeed },
  puppet: { on: 'bench', run: puppetSpeed },
  retime: { on: 'bench', run: retimeSpeed },
  balance: { on: 'bench', run: balanceSpeed },
  poise: { on: 'bench', run: poiseSpeed },
  change: { on: 'app', run: changeSpeed },
  drag: { on: 'app', run: dragSpeed },
  page: { on: 'app', run: pageLoad },
  playhead: { on: 'app', run: playheadSpeed },
};

const { values } = parseArgs({ options: { only: { type: 'string' }, write: { type: 'boolean', default: false } } });
const wanted = values.only?.split(',') ?? Object.keys(BENCHES);
const unknown = wanted.find((name) => !(name in BENCHES));
if (unknown !== undefined) throw new Error(`There is no benchmark ${unknown}; there are ${Object.keys(BENCHES).join(', ')}.`);
if (values.write && values.only !== undefined) throw new Error('--write needs all benchmarks: leave --only out.');

const say = (line: string): void => { process.stderr.write(`${line}\n`); };
const startedMs = performance.now();
const load = loadOfOthers();
await buildApp(say);
const servers = { app: await serveApp({ host: '127.0.0.1', port: 0 }), bench: await serveBenchPage() };
const browser = await launchBrowser();
try {
  const parts = [`${new Date().toISOString().slice(0, 10)}. ${machineFacts(browser.version(), load)} Printed by \`npm run bench\`.`];
  for (const name of wanted) {
    const { on, run } = BENCHES[name]!;
    const { title, how, heads, rows } = await run(browser, servers[on].url, say);
    parts.push(`### ${title}\n\n${how}\n\n${markdownTable(heads, rows)}`);
  }
  const report = parts.join('\n\n');
  console.log(report);
  if (values.write) writeFileSync(DOCUMENT, replaceBetweenMarkers(readFileSync(DOCUMENT, 'utf8'), 'benchmarks', report));
  say(`All benchmarks took ${((performance.now() - startedMs) / 1000).toFixed(0)} s.`);
} finally {
  await browser.close();
  await servers.app.close();
  await servers.bench.close();
}
