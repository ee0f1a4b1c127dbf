/**
 * Every frame keeps the container's own timestamp: compared with ffprobe, a demuxer that shares no code with ours.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { describeRate } from '../../../src/footage/rateVerdict.ts';
import { openInApp } from './labClip.ts';
import { ffmpeg, HAS_VIDEO_TOOLS, pattern, probedTimes, writeTurned } from './videoTools.ts';

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-times-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const H264 = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p'];
const VP9 = ['-c:v', 'libvpx-vp9', '-b:v', '200k', '-deadline', 'realtime', '-cpu-used', '8'];
/** Gaps that swing slowly between those of 21 and of 30 frames a second, as a phone's do when the light goes. */
const UNEVEN = ['-vf', "settb=1/90000,setpts='(N/25.5+0.08*sin(N/8))/TB'", '-fps_mode', 'vfr', '-enc_time_base', '1/90000'];
/** ffprobe prints six decimals. */
const PRINTED_S = 0.5e-6 + 1e-9;

interface Case {
  readonly name: string;
  readonly file: string;
  readonly make: (out: string) => void;
  readonly size?: readonly [number, number];
  readonly rotationDeg?: number;
  readonly rate: string | RegExp;
  readonly warnings?: number;
}

const from = (rate: string, ...how: readonly string[]) => (out: string): void => {
  ffmpeg('-f', 'lavfi', '-i', pattern(rate, 3), ...how, out);
};

/** A recording with the turn in its header, as phones write it. */
const turned = (degrees: 90 | 180 | 270) => (out: string): void => {
  const upright = `${out}.upright${extname(out)}`;
  from('30', ...H264)(upright);
  writeTurned(upright, out, degrees);
};

const CASES: readonly Case[] = [
  { name: 'MP4 with frames out of order', file: 'a.mp4', make: from('30', ...H264, '-bf', '3'), rate: '30 constant' },
  { name: 'fragmented MP4', file: 'frag.mp4', make: from('25', ...H264, '-g', '10', '-movflags', 'frag_keyframe+empty_moov'), rate: '25 constant' },
  { name: 'MP4 at an NTSC rate', file: 'ntsc.mp4', make: from('30000/1001', ...H264), rate: '29.97 constant' },
  { name: 'MOV at an NTSC film rate', file: 'film.mov', make: from('24000/1001', ...H264), rate: '23.976 constant' },
  { name: 'WebM', file: 'a.webm', make: from('30', ...VP9), rate: '30 constant' },
  { name: 'WebM at an NTSC rate, in milliseconds', file: 'ntsc.webm', make: from('30000/1001', ...VP9), rate: '29.97 constant' },
  { name: 'MKV', file: 'a.mkv', make: from('24', ...H264), rate: '24 constant' },
  { name: 'MP4 of variable rate', file: 'uneven.mp4', make: from('30', ...UNEVEN, '-video_track_timescale', '90000', ...H264), rate: /^variable 2\d to 3\d$/ },
  { name: 'WebM of variable rate', file: 'uneven.webm', make: from('30', ...UNEVEN, ...VP9), rate: /^variable 2\d to 3\d$/ },
  { name: 'MP4 turned by 90°', file: 'turned90.mp4', make: turned(90), size: [180, 320], rotationDeg: 90, rate: '30 constant' },
  { name: 'MOV turned by 270°', file: 'turned270.mov', make: turned(270), size: [180, 320], rotationDeg: 270, rate: '30 constant' },
  { name: 'MP4 upside down', file: 'turned180.mp4', make: turned(180), rotationDeg: 180, rate: '30 constant' },
  {
    // Cut without coding anew: the frames since the key frame before the cut stay, with timestamps below 0.
    name: 'MP4 with lead-in hidden by an edit list',
    file: 'cut.mp4',
    make: (out) => {
      from('30', ...H264, '-g', '30')(`${out}.whole.mp4`);
      ffmpeg('-ss', '1.5', '-i', `${out}.whole.mp4`, '-c', 'copy', out);
    },
    rate: '30 constant',
    warnings: 1,
  },
];

describe.skipIf(!HAS_VIDEO_TOOLS)('timestamps and size', () => {
  it.each(CASES)('of $name are those of the container', async ({ file, make, size = [320, 180], rotationDeg = 0, rate, warnings = 0 }) => {
    const clip = join(folder, file);
    make(clip);
    const probed = probedTimes(clip);
    expect(probed.length).toBeGreaterThan(40);

    const facts = await openInApp(clip);
    expect(facts.timesS).toHaveLength(probed.length);
    const worst = Math.max(...probed.map((t, i) => Math.abs(t - (facts.timesS[i] ?? Number.NaN))));
    expect(worst).toBeLessThanOrEqual(PRINTED_S);
    expect([facts.widthPx, facts.heightPx]).toEqual(size);
    expect(facts.rotationDeg).toBe(rotationDeg);
    expect(describeRate(facts.rate)).toMatch(rate);
    expect(facts.warnings).toHaveLength(warnings);
    expect(facts.hash).toMatch(/^[0-9a-f]{64}$/);
  });
});
