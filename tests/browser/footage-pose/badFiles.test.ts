/**
 * Each bad file gets its own error, with a sentence that a person can use.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openInApp } from './labClip.ts';
import { ffmpeg, HAS_VIDEO_TOOLS, hasEncoder, pattern } from './videoTools.ts';

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-bad-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string): string => join(folder, name);

function coded(name: string, ...how: readonly string[]): string {
  ffmpeg('-f', 'lavfi', '-i', pattern('30', 2), ...how, at(name));
  return at(name);
}

/** The first part of a file, as a copy that was broken off leaves it. */
function cut(file: string, share: number): string {
  const bytes = readFileSync(file);
  const out = `${file}.cut${file.slice(file.lastIndexOf('.'))}`;
  writeFileSync(out, bytes.subarray(0, Math.floor(bytes.length * share)));
  return out;
}

const H264 = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p'];

describe('without any video in it', () => {
  it.each([
    ['an empty file', 'empty.mp4', '', 'file-empty', 'empty.mp4 is empty'],
    ['a text renamed to .mp4', 'letter.mp4', 'Dear Marla, the jars are on the top shelf.\n'.repeat(50), 'not-a-video', 'letter.mp4 is not a video'],
    ['a web page renamed to .webm', 'page.webm', '<!doctype html><title>x</title>', 'not-a-video', 'page.webm'],
  ])('%s', async (_, name, text, code, words) => {
    writeFileSync(at(name), text);
    await expect(openInApp(at(name))).rejects.toMatchObject({ code, message: expect.stringContaining(words) as string, tip: expect.stringMatching(/\.$/) as string });
  });
});

describe.skipIf(!HAS_VIDEO_TOOLS)('made with ffmpeg and spoiled', () => {
  it('an MP4 cut off before its index', async () => {
    await expect(openInApp(cut(coded('late-index.mp4', ...H264), 0.5))).rejects.toMatchObject({ code: 'truncated', message: expect.stringContaining('before its index') as string });
  });

  it('an MP4 cut off after its index: the missing frames are counted', async () => {
    await expect(openInApp(cut(coded('early-index.mp4', ...H264, '-movflags', '+faststart'), 0.5)))
      .rejects.toMatchObject({ code: 'truncated', message: expect.stringMatching(/promises 60 frames, [1-5]?\d are there/) as string });
  });

  it('an MP4 that lacks only its last bytes', async () => {
    const whole = coded('almost.mp4', ...H264, '-movflags', '+faststart');
    await expect(openInApp(cut(whole, 0.999))).rejects.toMatchObject({ code: 'truncated', message: expect.stringContaining('promises 60 frames, 59 are there') as string });
  });

  it('a WebM cut off in its first cluster', async () => {
    await expect(openInApp(cut(coded('short.webm', '-c:v', 'libvpx-vp9', '-b:v', '200k'), 0.5))).rejects.toMatchObject({ code: 'truncated' });
  });

  it('a WebM cut off later opens with what is there, and a warning', async () => {
    const whole = at('long.webm');
    ffmpeg('-f', 'lavfi', '-i', pattern('30', 6), '-c:v', 'libvpx-vp9', '-b:v', '400k', '-deadline', 'realtime', '-cpu-used', '8', '-g', '15', '-cluster_time_limit', '500', whole);
    const facts = await openInApp(cut(whole, 0.5));
    expect(facts.timesS.length).toBeGreaterThan(30);
    expect(facts.timesS.length).toBeLessThan(150);
    expect(facts.warnings).toEqual([expect.stringContaining('The file says it lasts 6.0 s')]);
  });

  it.each([['an MP4 with sound only', 'sound.m4a', ['-c:a', 'aac']], ['an MP3', 'sound.mp3', []], ['a WAV', 'sound.wav', []]] as const)('%s', async (_, name, how) => {
    ffmpeg('-f', 'lavfi', '-i', 'sine=d=1', ...how, at(name));
    await expect(openInApp(at(name))).rejects.toMatchObject({ code: 'no-video-track' });
  });

  it('an AVI', async () => {
    await expect(openInApp(coded('old.avi', '-c:v', 'mpeg4'))).rejects.toMatchObject({ code: 'not-a-video' });
  });

  it.each([
    ['MPEG-4 Part 2', 'part2.mp4', 'mpeg4', []],
    ['Motion JPEG', 'mjpeg.mov', 'mjpeg', ['-pix_fmt', 'yuvj420p']],
    ['HEVC (H.265)', 'hevc.mp4', 'libx265', ['-pix_fmt', 'yuv420p', '-tag:v', 'hvc1', '-x265-params', 'log-level=none']],
  ])('a clip in %s, where it cannot be decoded', async (codec, name, encoder, how) => {
    if (!hasEncoder(encoder)) {
      console.warn(`SKIPPED: ${codec}, because this ffmpeg cannot make it.`);
      return;
    }
    const clip = coded(name, '-c:v', encoder, ...how);
    // Some machines decode HEVC in hardware; there it simply opens.
    const outcome = await openInApp(clip).then(() => 'opened', (error: unknown) => error);
    if (outcome === 'opened' && codec.startsWith('HEVC')) return;
    expect(outcome).toMatchObject({ code: 'codec-unsupported', message: expect.stringContaining(codec) as string, tip: expect.stringContaining('H.264') as string });
  });
});
