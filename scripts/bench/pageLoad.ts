/**
 * What the page costs before it can be used: bytes and time, empty and with the demo.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';
import type { Browser, Response } from 'playwright-core';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { percentile } from './percentile.ts';
import { type BenchResult, bytesText, timeText } from './result.ts';

const RUNS = 7;
/** A page that takes so long (a demo that has to be posed) is loaded only so often. */
const SLOW_MS = 8000;
const SLOW_RUNS = 1;
/** Footage is packed already; everything else is worth packing on the way. */
const PACKED = /\.(webm|mp4|woff2?|png|jpe?g|task)$/;
/** After the page is usable, how long to wait for whatever still comes (pictures of the footage). */
const SETTLE_MS = 1500;

interface Load {
  /** From the start of the navigation, ms. */
  readonly paintMs: number;
  readonly usableMs: number;
  /** Whether a pose model was loaded: then the demo's own track was not there, and the plan had to wait for posing. */
  readonly posed: boolean;
  readonly usableBytes: Sizes;
  readonly allBytes: Sizes;
  readonly requests: number;
}

interface Sizes {
  readonly raw: number;
  readonly gzip: number;
  readonly brotli: number;
}

interface Case {
  readonly name: string;
  readonly path: string;
  /** Expression that is true in the page once a person can work. */
  readonly usable: string;
}

const CASES: readonly Case[] = [
  // The ladder stands and the button that starts everything can be pressed.
  { name: 'empty', path: '', usable: `document.querySelector('.ladder') !== null && document.querySelector('.empty button.main')?.disabled === false` },
  // Every step of the finished plan is on the ladder, drawn, and no work is going on any more.
  {
    name: 'demo, full plan', path: '?demo',
    usable: `Number(document.querySelector('.ladder')?.getAttribute('aria-valuemax')) > 0 && document.querySelector('.ladder svg')?.childElementCount > 0 && document.querySelector('.job') === null`,
  },
];

const packedSizes = new Map<string, Sizes>();

/** Packed sizes of a whole file of dist/, worked out once; a part of a file is counted in proportion. */
function sizesOf(path: string, bodyBytes: number): Sizes {
  const file = join(PROJECT_FOLDER, 'dist', path === '/' ? 'index.html' : decodeURIComponent(path.slice(1)));
  if (PACKED.test(path) || !existsSync(file)) return { raw: bodyBytes, gzip: bodyBytes, brotli: bodyBytes };
  let whole = packedSizes.get(path);
  if (whole === undefined) {
    const bytes = readFileSync(file);
    whole = {
      raw: bytes.length,
      gzip: gzipSync(bytes, { level: 9 }).length,
      brotli: brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }).length,
    };
    packedSizes.set(path, whole);
  }
  const share = whole.raw > 0 ? bodyBytes / whole.raw : 0;
  return { raw: bodyBytes, gzip: whole.gzip * share, brotli: whole.brotli * share };
}

async function bodyBytes(response: Response): Promise<number> {
  // A request that the page gave up before its end (a demuxer that has read enough) has no sizes.
  const told = await response.request().sizes().catch(() => undefined);
  return told?.responseBodySize ?? 0;
}

async function sum(responses: readonly Response[]): Promise<Sizes> {
  let all: Sizes = { raw: 0, gzip: 0, brotli: 0 };
  for (const response of responses) {
    const one = sizesOf(new URL(response.url()).pathname, await bodyBytes(response));
    all = { raw: all.raw + one.raw, gzip: all.gzip + one.gzip, brotli: all.brotli + one.brotli };
  }
  return all;
}

async function loadOnce(browser: Browser, url: string, { path, usable }: Case): Promise<Load> {
  // A fresh context has neither cache nor storage: a first visit.
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const seen: { readonly atMs: number; readonly response: Response }[] = [];
  context.on('response', (response) => seen.push({ atMs: Date.now(), response }));
  try {
    const page = await context.newPage();
    // Watched from inside, frame by frame: polling from Node would add its own delay.
    await page.addInitScript(`{
      const look = () => {
        if (${usable}) globalThis.usableMs = performance.now();
        else requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    }`);
    await page.goto(new URL(path, url).href, { waitUntil: 'commit' });
    const mark = await page.waitForFunction(() => (globalThis as { usableMs?: number }).usableMs, undefined, { timeout: 60_000 });
    const usableMs = Number(await mark.jsonValue());
    const usableAtMs = Number(await page.evaluate('performance.timeOrigin')) + usableMs;
    await page.waitForTimeout(SETTLE_MS);
    const paintMs = Number(await page.evaluate(`performance.getEntriesByName('first-contentful-paint')[0]?.startTime`));
    return {
      // What stands in the page can be used only once it is painted.
      paintMs, usableMs: Math.max(usableMs, paintMs),
      posed: seen.some(({ response }) => response.url().endsWith('.task')),
      usableBytes: await sum(seen.filter(({ atMs }) => atMs <= usableAtMs).map(({ response }) => response)),
      allBytes: await sum(seen.map(({ response }) => response)),
      requests: seen.length,
    };
  } finally {
    await context.close();
  }
}

/** @param url of the served dist/, with a slash at its end */
export async function pageLoad(browser: Browser, url: string, say: (line: string) => void): Promise<BenchResult> {
  const rows: string[][] = [];
  for (const one of CASES) {
    say(`page: ${one.name}, warming up`);
    // The first is warm-up of the server and of the browser's own processes.
    const runs = (await loadOnce(browser, url, one)).usableMs > SLOW_MS ? SLOW_RUNS : RUNS;
    const loads: Load[] = [];
    for (let run = 1; run <= runs; run += 1) {
      say(`page: ${one.name}, ${run} of ${runs}`);
      loads.push(await loadOnce(browser, url, one));
    }
    const middle = (pick: (load: Load) => number): number => percentile(loads.map(pick), 0.5);
    rows.push([
      one.name + (loads.some(({ posed }) => posed) ? ' (had to be posed)' : ''), String(runs),
      timeText(middle((load) => load.paintMs)), timeText(middle((load) => load.usableMs)), timeText(percentile(loads.map((load) => load.usableMs), 0.95)),
      bytesText(middle((load) => load.usableBytes.raw)), bytesText(middle((load) => load.usableBytes.gzip)), bytesText(middle((load) => load.usableBytes.brotli)),
      bytesText(middle((load) => load.allBytes.raw)), String(middle((load) => load.requests)),
    ]);
  }
  return {
    title: 'First load',
    how: `The built app over a local connection, a window of 1440 × 900 without cache or storage, medians. Usable: the ladder stands and clips can be opened; ` +
      `with the demo, all steps of the finished plan are drawn. The server sends files as they are; what gzip (9) and brotli (11) would make of them is worked out from the same files. ` +
      `All bytes: ${SETTLE_MS / 1000} s later.`,
    heads: ['page', 'loads|r', 'first paint|r', 'usable|r', '95 %|r', 'bytes till usable|r', 'with gzip|r', 'with brotli|r', 'all bytes|r', 'requests|r'],
    rows,
  };
}
