/**
 * Builds and serves the app once for all browser tests, and sees to it that there is a browser to run them in.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import process from 'node:process';
import type { TestProject } from 'vitest/node';
import { findBrowser, HOW_TO_GET_A_BROWSER } from '../browser/findBrowser.ts';
import { buildApp } from '../serve/build.ts';
import { serveApp } from '../serve/serveApp.ts';

declare module 'vitest' {
  interface ProvidedContext {
    appUrl: string;
  }
}

/** On Debian as root a missing browser (and the video tools some tests compare with) is installed; elsewhere it is said. */
function installOnDebian(packages: readonly string[]): void {
  const isDebianRoot = existsSync('/etc/debian_version') && process.getuid?.() === 0;
  if (!isDebianRoot) return;
  console.log(`Installing ${packages.join(' and ')} for the browser tests …`);
  for (const words of [['update', '-qq'], ['install', '-y', '-qq', '--no-install-recommends', ...packages]]) {
    const done = spawnSync('apt-get', words, { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
    if (done.status !== 0) console.log(`apt-get ${words[0]} did not succeed.`);
  }
}

export default async function serveForTests(project: TestProject): Promise<() => Promise<void>> {
  const missing: string[] = [];
  if (!findBrowser()) missing.push('chromium');
  if (spawnSync('ffprobe', ['-version']).status !== 0) missing.push('ffmpeg');
  if (missing.length > 0) installOnDebian(missing);
  if (!findBrowser()) throw new Error(HOW_TO_GET_A_BROWSER);
  await buildApp((line) => console.log(line));
  const served = await serveApp({ host: '127.0.0.1', port: 0 });
  project.provide('appUrl', served.url);
  return served.close;
}
