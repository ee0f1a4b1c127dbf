/**
 * Types and lint side by side: each keeps one core busy and knows nothing of the others. What each says is printed as a whole
 * when it ends, so that their lines do not mix.
 *
 *     npx tsx scripts/test/checks.ts
 */
import { spawn } from 'node:child_process';
import process from 'node:process';

/** Runs one script of package.json; resolves to whether it succeeded. */
function run(script: string): Promise<boolean> {
  const startedMs = Date.now();
  return new Promise((resolve, reject) => {
    const child = spawn('npm', ['run', '--silent', script], { stdio: ['ignore', 'pipe', 'pipe'], shell: process.platform === 'win32' });
    const said: Buffer[] = [];
    child.stdout.on('data', (piece: Buffer) => said.push(piece));
    child.stderr.on('data', (piece: Buffer) => said.push(piece));
    child.on('error', reject);
    child.on('close', (status) => {
      process.stdout.write(Buffer.concat(said));
      console.log(`${script}: ${status === 0 ? 'good' : 'FAULTS, see above'} (${((Date.now() - startedMs) / 1000).toFixed(0)} s)`);
      resolve(status === 0);
    });
  });
}

const good = await Promise.all(['typecheck', 'lint'].map(run));
if (!good.every(Boolean)) process.exitCode = 1;
