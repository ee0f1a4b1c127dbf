/**
 * Real footage that lies beside the project and is never part of it. Its truth is unknown: only what must hold of any body is checked.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { withPage } from '../../clips/browser.ts';
import { PROJECT_FOLDER } from '../../serve/projectFolder.ts';

const FOOTAGE = join(PROJECT_FOLDER, '..', 'shared', 'footage');
const MADE = join(PROJECT_FOLDER, 'generated', 'real');

export interface RealTake {
  readonly name: string;
  readonly says: string;
  readonly clip: string;
  /** Whether the performer stands upright at any time. */
  readonly stands: boolean;
}

/** A still becomes a take of a second in which nothing moves: one frame alone gives the fit no time. */
async function clipOfStill(picture: string, clip: string): Promise<void> {
  const data = await withPage((page) => page.evaluate(
    ([bytes]) => window.clipsPage?.ofPicture(bytes, 6, 1000), [readFileSync(picture).toString('base64')] as const,
  ));
  mkdirSync(MADE, { recursive: true });
  writeFileSync(clip, Buffer.from(data ?? '', 'base64'));
}

/** @returns the takes that are there, and the names of the files that are not */
export async function realTakes(): Promise<{ readonly takes: readonly RealTake[]; readonly missing: readonly string[] }> {
  const squats = join(FOOTAGE, 'pose_squats.mp4');
  const still = join(FOOTAGE, 'pose.jpg');
  const missing = [squats, still].filter((file) => !existsSync(file));
  const takes: RealTake[] = [];
  if (existsSync(squats)) takes.push({ name: 'real-squats', says: 'a woman squats; 720 × 1280, five frames a second', clip: squats, stands: true });
  if (existsSync(still)) {
    const clip = join(MADE, 'pose.webm');
    if (!existsSync(clip)) await clipOfStill(still, clip);
    takes.push({ name: 'real-still', says: 'one person stands in a lunge, arms out; a still shown for a second', clip, stands: false });
  }
  return { takes, missing };
}
