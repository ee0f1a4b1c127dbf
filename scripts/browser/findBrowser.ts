/**
 * Finds a Chromium, Chrome or Edge that is already on the machine. We never download a browser.
 */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';

const ON_PATH = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable', 'microsoft-edge'];

const ON_MAC = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];

const BELOW_PROGRAM_FILES = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
];

/** One line that says how to get a browser; shown wherever one is needed and missing. */
export const HOW_TO_GET_A_BROWSER =
  'No Chromium, Chrome or Edge was found. Install one (Debian, Ubuntu: `apt-get install chromium`), ' +
  'or name it in the environment variable NUDGEBOOK_BROWSER.';

function runnable(path: string): boolean {
  try {
    accessSync(path, process.platform === 'win32' ? constants.F_OK : constants.X_OK);
    return true;
  } catch {
    // "Not there" is the answer asked for, not a failure.
    return false;
  }
}

/**
 * @returns path of the program, or `undefined` where there is none. `NUDGEBOOK_BROWSER` goes before everything;
 *   a path in it that cannot be run counts as none, so that a typing error is not covered up by another browser.
 */
export function findBrowser(): string | undefined {
  const named = process.env['NUDGEBOOK_BROWSER'];
  if (named) return runnable(named) ? named : undefined;
  const candidates: string[] = [];
  if (process.platform === 'darwin') candidates.push(...ON_MAC);
  if (process.platform === 'win32') {
    for (const root of [process.env['PROGRAMFILES'], process.env['PROGRAMFILES(X86)'], process.env['LOCALAPPDATA']]) {
      if (root) candidates.push(...BELOW_PROGRAM_FILES.map((parts) => join(root, ...parts)));
    }
  }
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    if (folder) candidates.push(...ON_PATH.map((name) => join(folder, name)));
  }
  return candidates.find(runnable);
}
