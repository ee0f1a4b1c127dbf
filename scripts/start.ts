/**
 * `npm start`: builds the app, serves it on this machine and says where.
 *
 * PORT (default 4177) and HOST (default localhost) are honoured. A HOST that others can reach is allowed, with a word
 * about what then works: browsers give video decoding and storage of this kind to localhost or https pages only.
 */
import process from 'node:process';
import { buildApp } from './serve/build.ts';
import { openWindow } from './serve/openWindow.ts';
import { serveApp } from './serve/serveApp.ts';

const DEFAULT_PORT = 4177;

function portFromEnvironment(): number | undefined {
  const said = process.env['PORT'];
  if (said === undefined || said === '') return DEFAULT_PORT;
  const port = Number(said);
  return Number.isInteger(port) && port > 0 && port < 65536 ? port : undefined;
}

/** Opening a window is only tried where somebody can see it. */
function hasDesktop(): boolean {
  if (process.env['CI']) return false;
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env['DISPLAY'] ?? process.env['WAYLAND_DISPLAY']);
}

async function main(): Promise<number> {
  const port = portFromEnvironment();
  if (port === undefined) {
    console.error(`PORT is "${process.env['PORT']}", which is no port number. Give a whole number from 1 to 65535.`);
    return 2;
  }
  const host = process.env['HOST'] || 'localhost';
  await buildApp((line) => console.log(line));
  try {
    const served = await serveApp({ host, port });
    console.log(`Nudgebook is open at ${served.url}  (Ctrl+C ends it)`);
    if (hasDesktop()) openWindow(served.url);
    if (!['localhost', '127.0.0.1', '::1'].includes(host)) {
      console.log('From another machine a browser needs https to read video; on this one use localhost.');
    }
    return 0;
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    if (/in use|EADDRINUSE/i.test(words)) {
      console.error(`Port ${port} on ${host} is already in use. Choose another: PORT=${port + 1} npm start`);
      return 1;
    }
    if (/EADDRNOTAVAIL|ENOTFOUND|EACCES/.test(words)) {
      console.error(`HOST ${host}, port ${port} cannot be used here (${words}). Leave HOST out to serve on localhost.`);
      return 1;
    }
    throw error;
  }
}

process.exitCode = await main();
