/**
 * Nothing leaves the machine: a whole run, with every request recorded and a trap behind every other address.
 *
 * Two nets, because either alone could miss something: the browser's own list of requests, and a listener to which every
 * host name in the world resolves in this browser, so that whatever gets past the policy arrives there.
 */
import { createServer, type Server, type Socket } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../../scripts/browser/launch.ts';
import { appUrl } from './harness.ts';

/**
 * The browser's own services: its updates, its owner's account, its check for a login page of the network, its help with
 * forms. No flag silences them all, and they are not a page's. (Seen, or from memory for other builds.) They are unknown
 * names in this browser, so that whatever is caught was meant by a page or a worker. `launchBrowser` makes every name
 * unknown; here the others lead to the trap instead.
 */
const THE_BROWSERS_OWN = [
  'accounts.google.com', 'update.googleapis.com', 'connectivitycheck.gstatic.com', 'content-autofill.googleapis.com',
  'clients2.google.com', 'clients4.google.com', 'android.clients.google.com', 'mtalk.google.com', 'redirector.gvt1.com',
  'edgedl.me.gvt1.com', 'www.google.com', 'www.gstatic.com', 'safebrowsing.googleapis.com',
  'optimizationguide-pa.googleapis.com', 'passwordsleakcheck-pa.googleapis.com', 'edge.microsoft.com', 'msedge.api.cdp.microsoft.com',
  'config.edge.skype.com', 'www.bing.com',
];

let trap: Server;
/** Whom each connection to the trap was meant for. */
const caught: string[] = [];
/**
 * Asked for on purpose, plain and safe, to show that the trap works; asked for nowhere else. The browser may greet such a
 * host once more when its page is long gone (it tries again by itself, later on a busy machine), so these two names are
 * left out below instead of the list being emptied once.
 */
const PROOF = ['proof.example', 'safe.proof.example'];
/** Whom anything was meant for that no test asked for on purpose. */
const gotOut = (): string[] => caught.filter((host) => !PROOF.includes(host));
let browser: Browser;
const sockets = new Set<Socket>();

/** The host that a request (plain) or a greeting (TLS, server name indication) is for, as far as its bytes tell. */
function hostIn(bytes: Buffer): string {
  const text = bytes.toString('latin1');
  return /\r\nHost: ([^\r:]+)/i.exec(text)?.[1] ?? /[a-z0-9-]+(?:\.[a-z0-9-]+)*\.[a-z]{2,}/.exec(text)?.[0] ?? 'somebody';
}

beforeAll(async () => {
  trap = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => socket.destroy());
    socket.once('data', (bytes) => {
      caught.push(hostIn(bytes));
      socket.end('HTTP/1.1 200 OK\r\nContent-Length: 0\r\nAccess-Control-Allow-Origin: *\r\n\r\n');
    });
  });
  await new Promise<void>((resolve) => trap.listen(0, '127.0.0.1', resolve));
  const address = trap.address();
  if (!address || typeof address === 'string') throw new Error('The trap has no port.');
  const unknown = THE_BROWSERS_OWN.map((name) => `MAP ${name} ~NOTFOUND`).join(', ');
  browser = await launchBrowser([`--host-resolver-rules=${unknown}, MAP * 127.0.0.1:${address.port}, EXCLUDE 127.0.0.1`]);
});

afterAll(async () => {
  await browser.close();
  for (const socket of sockets) socket.destroy();
  await new Promise((resolve) => trap.close(resolve));
});

describe('privacy', () => {
  it('has a trap that catches what gets out (or the rest of this file would prove nothing)', async () => {
    const page = await browser.newPage();
    for (const host of PROOF) {
      await page.goto(`${host === PROOF[0] ? 'http' : 'https'}://${host}/`).catch(() => undefined);
      expect(caught).toContain(host);
    }
    await page.close();
  });

  it('sends the policy with page, script, worker, wasm and model', async () => {
    const page = await browser.newPage();
    const seen = new Map<string, string | undefined>();
    page.context().on('response', (response) => seen.set(response.url(), response.headers()['content-security-policy']));
    await page.goto(`${appUrl()}lab.html`);
    for (const address of ['wasm/vision_wasm_module_internal.wasm', 'models/pose_landmarker_full.task', 'not-there.bin']) {
      const policy = await page.evaluate(async (path) => (await fetch(path, { method: 'HEAD' })).headers.get('content-security-policy'), address);
      expect(policy, address).toContain("connect-src 'self'");
    }
    expect(seen.size).toBeGreaterThan(1);
    for (const [url, policy] of seen) expect(policy, url).toContain("default-src 'none'");
    await page.close();
  });

  it('refuses a request elsewhere by fetch, beacon, socket and picture', async () => {
    const page = await browser.newPage();
    await page.goto(`${appUrl()}lab.html`);
    const outcome = await page.evaluate(async () => {
      const fetched = await fetch('https://outside.example/x', { mode: 'no-cors' }).then(() => 'went out', () => 'refused');
      navigator.sendBeacon('https://outside.example/beacon', 'x');
      const socket = await new Promise<string>((resolve) => {
        try {
          const made = new WebSocket('wss://outside.example/s');
          made.onopen = () => resolve('went out');
          made.onerror = () => resolve('refused');
        } catch {
          resolve('refused');
        }
      });
      const picture = await new Promise<string>((resolve) => {
        const image = new Image();
        image.onload = () => resolve('went out');
        image.onerror = () => resolve('refused');
        image.src = 'https://outside.example/i.png';
      });
      return [fetched, socket, picture];
    });
    expect(outcome).toEqual(['refused', 'refused', 'refused']);
    expect(gotOut()).toEqual([]);
    await page.close();
  });

  it('keeps a whole run inside: app, demo, posing, end of the workers', async () => {
    const context = await browser.newContext();
    const requests: string[] = [];
    context.on('request', (request) => requests.push(request.url()));
    const withoutPolicy: string[] = [];
    context.on('response', (response) => {
      if (!response.url().startsWith('http')) return;
      if (!response.headers()['content-security-policy']?.includes("connect-src 'self'")) withoutPolicy.push(response.url());
    });

    const app = await context.newPage();
    await app.goto(`${appUrl()}?demo`);
    await app.waitForFunction(() => Number(document.querySelector('[role=slider][aria-label=Steps]')?.getAttribute('aria-valuemax')) > 10);
    await app.close();

    const lab = await context.newPage();
    await lab.goto(`${appUrl()}lab.html`);
    await lab.waitForFunction(() => window.nudgebookLab !== undefined);
    const answer = await lab.evaluate(
      (url) => window.nudgebookLab!.pose({ url, name: 'arm-raise.webm', model: 'lite' }),
      `${appUrl()}reference-clips/arm-raise.webm`,
    );
    if (!answer.ok) throw new Error(answer.error.sentence);
    expect(answer.value.track.frames.length).toBeGreaterThan(60);
    // Give a late request time to be caught.
    await lab.waitForTimeout(3_000);
    await lab.close();

    const own = new URL(appUrl()).origin;
    const outside = requests.filter((url) => !url.startsWith(`${own}/`) && !url.startsWith(`blob:${own}/`) && !url.startsWith('data:'));
    expect(outside).toEqual([]);
    expect(withoutPolicy).toEqual([]);
    // Worker, engine and model were among them, or the list above would say nothing of them.
    for (const part of [/poseWorker/, /\.wasm$/, /\.task$/]) expect(requests.some((url) => part.test(url)), String(part)).toBe(true);
    expect(gotOut()).toEqual([]);
    await context.close();
  });
});
