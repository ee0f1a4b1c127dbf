/**
 * Gathers the licence texts of everything that the built app ships, so that they travel with it.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

/** Packages that end up in dist/ by an import, an asset or a style; what they depend on is found from them. */
const SHIPPED = [
  '@mediapipe/pose', '@mediapipe/tasks-vision', 'mediabunny', 'react', 'react-dom', 'zustand', 'd3', 'three', 'zod', 'idb',
  '@fontsource-variable/source-sans-3',
] as const;

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

/** Folder of an installed package; found by walking up, because many packages don't let their manifest be required. */
function folderOf(name: string, rootDir: string): string | undefined {
  const candidates = createRequire(path.join(rootDir, 'package.json')).resolve.paths(name) ?? [];
  return candidates.map((folder) => path.join(folder, name)).find((folder) => existsSync(path.join(folder, 'package.json')));
}

function licenceText(folder: string): string | undefined {
  const file = readdirSync(folder).find((name) => /^licen[cs]e(\.|$)/i.test(name));
  return file === undefined ? undefined : readFileSync(path.join(folder, file), 'utf8').trim();
}

/**
 * @param rootDir root of the repository
 * @returns plain text: NOTICE, then each package with its version and licence text; packages under Apache-2.0 that carry no
 *   text of it share the one at the end
 * @throws Error where a shipped package is not installed, or carries a licence text of neither kind
 */
export function licencesText(rootDir: string): string {
  const waiting: string[] = [...SHIPPED];
  const parts = new Map<string, string>();
  while (waiting.length > 0) {
    const name = waiting.pop()!;
    if (parts.has(name)) continue;
    // Types are erased when the app is built.
    if (name.startsWith('@types/')) continue;
    const folder = folderOf(name, rootDir);
    if (folder === undefined) throw new Error(`${name} is shipped but not installed: run npm ci.`);
    const manifest = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8')) as Manifest;
    const text = licenceText(folder) ?? (manifest.license === 'Apache-2.0' ? 'The text stands at the end of this file.' : undefined);
    if (text === undefined) throw new Error(`${name} carries no licence text.`);
    parts.set(name, `${name} ${manifest.version}, ${manifest.license ?? 'licence below'}\n\n${text}`);
    waiting.push(...Object.keys(manifest.dependencies ?? {}));
  }
  const rule = `\n\n${'='.repeat(78)}\n\n`;
  const packages = [...parts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, part]) => part);
  return [readFileSync(path.join(rootDir, 'NOTICE'), 'utf8').trim(), ...packages, readFileSync(path.join(rootDir, 'LICENSE'), 'utf8').trim()].join(rule) + '\n';
}
