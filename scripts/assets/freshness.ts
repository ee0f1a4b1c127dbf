/**
 * Knows which made files are still good, so that preparing a second time costs nothing.
 *
 * A made file is good when it is there with the size it was made with and everything it was made from has
 * the size and date it had then. The record lies beside the served folder, never in it.
 */
import { mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';

interface MadeFile {
  /** What it was made from and by which version of the recipe. */
  readonly from: string;
  readonly bytes: number;
}

export class MadeFiles {
  readonly #recordPath: string;
  #made: Record<string, MadeFile>;
  #changed = false;

  private constructor(recordPath: string, made: Record<string, MadeFile>) {
    this.#recordPath = recordPath;
    this.#made = made;
  }

  /** Opens the record; a missing or unreadable one means that everything is made anew. */
  static async open(recordPath: string): Promise<MadeFiles> {
    const text = await readFile(recordPath, 'utf8').catch(() => '{}');
    try {
      return new MadeFiles(recordPath, JSON.parse(text) as Record<string, MadeFile>);
    } catch {
      return new MadeFiles(recordPath, {});
    }
  }

  /**
   * Makes one file unless it is still good.
   *
   * @param target path of the file to make
   * @param sources files it is made from
   * @param recipe a name of how; changing it makes the file anew
   * @param make gives the bytes
   * @returns true when it had to be made
   */
  async make(target: string, sources: readonly string[], recipe: string, make: () => Promise<Uint8Array>): Promise<boolean> {
    const stamps = await Promise.all(sources.map(async (s) => {
      const { size, mtimeMs } = await stat(s);
      return `${path.basename(s)}:${size}:${Math.round(mtimeMs)}`;
    }));
    const from = [recipe, ...stamps].join('|');
    const key = path.relative(path.dirname(this.#recordPath), target).split(path.sep).join('/');
    const known = this.#made[key];
    const there = await stat(target).catch(() => undefined);
    if (known && known.from === from && there?.size === known.bytes) return false;
    const bytes = await make();
    await writeWhole(target, bytes);
    this.#made = { ...this.#made, [key]: { from, bytes: bytes.length } };
    this.#changed = true;
    return true;
  }

  /** Removes a file that has no source any more. */
  async remove(target: string): Promise<void> {
    await rm(target, { force: true });
  }

  /** Writes the record if anything was made. */
  async save(): Promise<void> {
    if (this.#changed) await writeWhole(this.#recordPath, new TextEncoder().encode(JSON.stringify(this.#made, null, 1)));
  }
}

/** Writes beside and renames, so that nobody ever reads half a file. */
async function writeWhole(target: string, bytes: Uint8Array): Promise<void> {
  await mkdir(path.dirname(target), { recursive: true });
  const beside = `${target}.${process.pid}.part`;
  await writeFile(beside, bytes);
  await rename(beside, target);
}
