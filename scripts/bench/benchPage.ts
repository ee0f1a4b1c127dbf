/**
 * Builds the bench page into generated/bench and serves it as the app is served.
 */
import { join } from 'node:path';
import { build } from 'vite';
import { prepareAssets } from '../assets/prepare.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { serveApp, type ServedApp } from '../serve/serveApp.ts';

const OUT = join(PROJECT_FOLDER, 'generated', 'bench');

async function buildPage(): Promise<void> {
  await build({
    configFile: false,
    root: join(PROJECT_FOLDER, 'scripts', 'bench', 'page'),
    logLevel: 'error',
    base: './',
    publicDir: await prepareAssets(PROJECT_FOLDER),
    worker: { format: 'es' },
    build: { outDir: OUT, emptyOutDir: true, target: 'es2023' },
  });
}

/** Close it when done. */
export async function serveBenchPage(): Promise<ServedApp> {
  await buildPage();
  return serveApp({ host: '127.0.0.1', port: 0, folder: OUT });
}
