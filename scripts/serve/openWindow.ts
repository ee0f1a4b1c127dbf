/**
 * Opens an address in the person's own browser, as a courtesy: the address is printed anyway.
 */
import { spawn } from 'node:child_process';
import process from 'node:process';

const OPENERS: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

/** Asks the desktop to show the address; where it can't, the printed address has to do. */
export function openWindow(url: string): void {
  const [command = 'xdg-open', ...words] = OPENERS[process.platform] ?? ['xdg-open'];
  const child = spawn(command, [...words, url], { stdio: 'ignore', detached: true });
  child.on('error', () => console.log('(No browser window could be opened from here: open the address yourself.)'));
  child.unref();
}
