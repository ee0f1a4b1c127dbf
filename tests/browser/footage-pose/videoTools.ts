/**
 * Clips that the tests make for themselves with ffmpeg, and what ffprobe says of them.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';

function runs(tool: string): boolean {
  return spawnSync(tool, ['-version']).status === 0;
}

/** Whether the tests that need ffmpeg and ffprobe can run; says so where they cannot. */
export const HAS_VIDEO_TOOLS = runs('ffmpeg') && runs('ffprobe');
if (!HAS_VIDEO_TOOLS) console.warn('SKIPPED: tests that compare with ffprobe, because ffmpeg is not installed.');

function must(tool: string, words: readonly string[]): Buffer {
  const done = spawnSync(tool, words, { maxBuffer: 1 << 28 });
  if (done.status !== 0) throw new Error(`${tool} ${words.join(' ')}: ${done.stderr.toString()}`);
  return done.stdout;
}

/** Runs ffmpeg quietly; throws with its words where it fails. */
export function ffmpeg(...words: readonly string[]): Buffer {
  return must('ffmpeg', ['-v', 'error', '-y', ...words]);
}

/** Whether this ffmpeg has an encoder. */
export function hasEncoder(name: string): boolean {
  return spawnSync('ffmpeg', ['-v', 'quiet', '-h', `encoder=${name}`]).stdout.toString().includes(`Encoder ${name}`);
}

/** A moving picture with a clear top and bottom, for `-i` after `-f lavfi`. */
export function pattern(rate: string, seconds: number, size = '320x180'): string {
  return `testsrc2=s=${size}:r=${rate}:d=${seconds}`;
}

/** Presentation timestamps as ffprobe prints them (six decimals), sorted, those below 0 left out. */
export function probedTimes(file: string): number[] {
  const printed = must('ffprobe', ['-v', 'error', '-select_streams', 'v:0', '-show_entries', 'packet=pts_time', '-of', 'csv=p=0', file]).toString();
  return printed.split('\n').map((line) => line.replace(/,.*$/, '').trim()).filter((line) => line !== '')
    .map(Number).filter((t) => t >= 0).sort((a, b) => a - b);
}

/**
 * Copies an MP4 or MOV with a turn written into its track header, as phones write it. Done by hand because the
 * option for it changes from version to version of ffmpeg.
 *
 * Source: ISO/IEC 14496-12, box `tkhd` version 0: the matrix (nine 32-bit numbers, 16.16 fixed point, the third of each row 2.30)
 * stands 40 bytes after the box's version field.
 *
 * @param degrees clockwise turn that a player is to apply
 */
export function writeTurned(file: string, out: string, degrees: 90 | 180 | 270): void {
  const bytes = readFileSync(file);
  const box = bytes.indexOf('tkhd');
  if (box < 0 || bytes[box + 4] !== 0) throw new Error(`${file} has no track header of version 0`);
  const one = 0x10000;
  const [a, b, c, d] = { 90: [0, one, -one, 0], 180: [-one, 0, 0, -one], 270: [0, -one, one, 0] }[degrees] as [number, number, number, number];
  [a, b, 0, c, d, 0, 0, 0, 0x40000000].forEach((value, i) => bytes.writeInt32BE(value, box + 44 + 4 * i));
  writeFileSync(out, bytes);
}

/** One frame as ffmpeg shows it, rotation applied: rows of R, G, B. */
export function shownPixels(file: string, frame: number): Buffer {
  return ffmpeg('-i', file, '-vf', `select=eq(n\\,${frame})`, '-frames:v', '1', '-f', 'rawvideo', '-pix_fmt', 'rgb24', '-');
}
