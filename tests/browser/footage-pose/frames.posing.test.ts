/**
 * Decoding in a real browser: exact frames, upright, every one given back; the viewer; a run that is cancelled.
 */
import { openSync, closeSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenRig, openRig } from './rig.ts';
import { ffmpeg, HAS_VIDEO_TOOLS, pattern, shownPixels, writeTurned } from './videoTools.ts';

let rig: OpenRig;
const url = (name: string): string => `/clips/${name}`;
const at = (name: string): string => join(rig.folder, name);

/** A clip whose whole picture says which frame it is: level 8·(index mod 30) + 8 of grey. */
const GREY = "format=gray,geq=lum='8*mod(N,30)+8',format=yuv420p";
const FRAMES = 60;

/** The browser tells of a worker's end a moment after it was ended. */
const noWorkerLeft = (): Promise<void> => expect.poll(() => rig.page.workers().length, { timeout: 3000 }).toBe(0);

describe.skipIf(!HAS_VIDEO_TOOLS)('frames', () => {
  beforeAll(async () => {
    rig = await openRig();
    ffmpeg('-f', 'lavfi', '-i', pattern('30', 2, '160x90'), '-vf', GREY, '-c:v', 'libx264', '-qp', '0', '-bf', '2', '-g', '25', '-movflags', '+faststart', at('grey.mp4'));
    ffmpeg('-f', 'lavfi', '-i', pattern('30', 1), '-vf', 'format=gray,format=yuv420p', '-c:v', 'libx264', '-qp', '4', at('upright.mp4'));
    for (const turn of [90, 180, 270] as const) writeTurned(at('upright.mp4'), at(`turned${turn}.mp4`), turn);
  });
  afterAll(() => rig.close());

  it.each([[0, 60], [0, 1], [7, 9], [24, 26], [25, 60], [59, 60]])('%i to %i come each once, in order, and are all given back', async (first, end) => {
    const report = await rig.page.evaluate(([u, f, e]) => window.nudgebookRig!.read(u, f, e), [url('grey.mp4'), first, end] as const);
    expect(report.read).toEqual(Array.from({ length: end - first }, (_, i) => `frame ${first + i}`));
    expect(report.opened).toBeGreaterThanOrEqual(end - first);
    expect(report.closed).toBe(report.opened);
  });

  it('are all given back when the reader is left early', async () => {
    const report = await rig.page.evaluate((u) => window.nudgebookRig!.read(u, 3, 60, 5), url('grey.mp4'));
    expect(report.read).toHaveLength(5);
    expect(report.opened).toBe(5);
    expect(report.closed).toBe(5);
  });

  it('come from a server that knows no ranges as well', async () => {
    const report = await rig.page.evaluate(() => window.nudgebookRig!.read('/plain/grey.mp4', 0, 60));
    expect(report.read).toHaveLength(FRAMES);
  });

  it.each(['upright.mp4', 'turned90.mp4', 'turned180.mp4', 'turned270.mp4'])('of %s stand upright: the picture is the one ffmpeg shows', async (name) => {
    const shown = shownPixels(at(name), 10);
    const { width, height, data } = await rig.page.evaluate((u) => window.nudgebookRig!.pixels(u, 10), url(name));
    expect(shown).toHaveLength(width * height * 3);
    const pixels = width * height;
    let right = 0;
    let upsideDown = 0;
    for (let i = 0; i < pixels; i++) {
      right += Math.abs((shown[i * 3] ?? 0) - (data[i] ?? 0)) / pixels;
      upsideDown += Math.abs((shown[(pixels - 1 - i) * 3] ?? 0) - (data[i] ?? 0)) / pixels;
    }
    // Two programs differ by a level or two in grey; the pattern turned by half a turn differs by dozens.
    expect(right).toBeLessThan(3);
    expect(upsideDown).toBeGreaterThan(20);
  });

  it('that a decoder does not deliver are told as missing, or the damage is an error; never a shorter run', async () => {
    // The index is whole and the file long enough, but the pictures of its second half are zeros.
    const bytes = readFileSync(at('grey.mp4'));
    writeFileSync(at('holed.mp4'), bytes);
    const file = openSync(at('holed.mp4'), 'r+');
    writeSync(file, Buffer.alloc(Math.floor(bytes.length * 0.4)), 0, undefined, Math.floor(bytes.length * 0.6));
    closeSync(file);
    const report = await rig.page.evaluate(([u, s]) => window.nudgebookRig!.readSpoiled(u, s), [url('grey.mp4'), url('holed.mp4')] as const);
    expect(report.read[0]).toBe('frame 0');
    expect(report.error === 'decode-failed' || report.read.length === FRAMES).toBe(true);
    expect(report.read.filter((r) => r.startsWith('frame')).length).toBeLessThan(FRAMES);
    expect(report.closed).toBe(report.opened);
  });

  describe('in the viewer', () => {
    const PICTURE_BYTES = 160 * 90 * 4;
    const levelOf = (index: number): number => 8 * (index % 30) + 8;

    it('are the ones asked for, forwards, backwards and far apart', async () => {
      const steps = [0, 1, 2, 3, 40, 39, 38, 37, 5, 59].map((show) => ({ show, ahead: [show + 1, show + 2] }));
      const { middles } = await rig.page.evaluate(([u, s, b]) => window.nudgebookRig!.view(u, s, b), [url('grey.mp4'), steps, 100 * PICTURE_BYTES] as const);
      middles.forEach((middle, i) => {
        // Neighbours are 8 levels apart; to video range and back costs one or two.
        expect(Math.abs((middle[0] ?? -99) - levelOf(steps[i]!.show))).toBeLessThan(4);
      });
    });

    it('come most urgent first, and never more than there is room for', async () => {
      const { came, held } = await rig.page.evaluate(([u, b]) => window.nudgebookRig!.view(u, [
        { show: 10, ahead: [11, 12, 13, 14, 15, 16, 17, 18, 19, 20] },
        { show: 50, ahead: [51, 52, 53, 54, 55, 56] },
      ], b), [url('grey.mp4'), 5 * PICTURE_BYTES] as const);
      expect(came[0]).toBe(10);
      expect(held).toEqual([50, 51, 52, 53, 54]);
    });
  });

  describe('in a pose run', () => {
    it('are all given back, and progress names each exactly once, at most ten times a second', async () => {
      const stats = await rig.page.evaluate((u) => window.nudgebookRig!.poseStats(u), url('grey.mp4'));
      expect(stats).toMatchObject({ workers: 2, missed: FRAMES, undecoded: 0 });
      expect(stats.opened).toBeGreaterThanOrEqual(FRAMES);
      expect(stats.closed).toBe(stats.opened);
      expect([...stats.changed].sort((a, b) => a - b)).toEqual(Array.from({ length: FRAMES }, (_, i) => i));
      // A timer of 100 ms may fire a little early by the clock it is measured with.
      expect(stats.shortestGapMs).toBeGreaterThan(90);
      await noWorkerLeft();
    });

    it('that is cancelled leave no worker behind', async () => {
      const report = await rig.page.evaluate((u) => window.nudgebookRig!.cancel(u), url('grey.mp4'));
      expect(report.code).toBe('cancelled');
      expect(report.done).toBeLessThan(FRAMES);
      expect(report.callsAfter).toBe(0);
      // At once means without waiting for a frame under way (tens of milliseconds each).
      expect(report.msToReject).toBeLessThan(200);
      await noWorkerLeft();
    });
  });
});
