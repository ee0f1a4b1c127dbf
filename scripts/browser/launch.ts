/**
 * Starts the found browser without a window, the same way for the command line, the tests and the clip renderer.
 */
import process from 'node:process';
import { chromium, type Browser } from 'playwright-core';
import { NudgebookError } from '../../src/errors.ts';
import { findBrowser, HOW_TO_GET_A_BROWSER } from './findBrowser.ts';

const ARGUMENTS = [
  // Software WebGL everywhere: the same pixels on every machine, and no GPU needed on a server.
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  // The browser itself must not talk to its maker either while it handles footage.
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-quic',
  '--no-first-run',
  '--no-default-browser-check',
];

/** Every name but this machine's own is unknown to the browser, so that neither a page nor the browser itself can reach anything. */
const THIS_MACHINE_ONLY = '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost';

/**
 * @param more further switches for the browser, e.g. of a test that watches its network (the last of two equal switches counts)
 * @returns a running browser; close it when done
 * @throws NudgebookError `no-browser` where none is installed or it does not start
 */
export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  const executablePath = findBrowser();
  if (!executablePath) throw new NudgebookError('no-browser', 'A browser is needed to read the video.', HOW_TO_GET_A_BROWSER);
  // The sandbox cannot start as root on Linux; for everybody else it stays on.
  const isRoot = process.platform === 'linux' && process.getuid?.() === 0;
  try {
    return await chromium.launch({ executablePath, headless: true, chromiumSandbox: !isRoot, args: [...ARGUMENTS, THIS_MACHINE_ONLY, ...more] });
  } catch (cause) {
    throw new NudgebookError('no-browser', `The browser at ${executablePath} did not start.`, HOW_TO_GET_A_BROWSER, cause);
  }
}
