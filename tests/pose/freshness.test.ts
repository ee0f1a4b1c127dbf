import { mkdtemp, readFile, rm, utimes, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MadeFiles } from '../../scripts/assets/freshness.ts';

let dir: string;
beforeEach(async () => { dir = await mkdtemp(path.join(os.tmpdir(), 'nudgebook-made-')); });
afterEach(() => rm(dir, { recursive: true }));

describe('made files', () => {
  it('are made once, and again when source, recipe or the file itself has changed', async () => {
    const source = path.join(dir, 'source');
    const target = path.join(dir, 'out', 'target');
    await writeFile(source, 'abc');
    let times = 0;
    const make = async (recipe: string): Promise<boolean> => {
      const made = await MadeFiles.open(path.join(dir, 'record.json'));
      const did = await made.make(target, [source], recipe, async () => {
        times += 1;
        return new Uint8Array(await readFile(source));
      });
      await made.save();
      return did;
    };
    expect(await make('1')).toBe(true);
    expect(await make('1')).toBe(false);
    expect(await readFile(target, 'utf8')).toBe('abc');
    await writeFile(source, 'abcd');
    expect(await make('1')).toBe(true);
    expect(await readFile(target, 'utf8')).toBe('abcd');
    await utimes(source, new Date(2020, 0, 1), new Date(2020, 0, 1));
    expect(await make('1')).toBe(true);
    expect(await make('2')).toBe(true);
    await rm(target);
    expect(await make('2')).toBe(true);
    expect(await make('2')).toBe(false);
    expect(times).toBe(5);
  });
});
