/**
 * The whole way from file to track, against landmarks that others published for the same model family.
 *
 * Source of the squats and their landmarks: tensorflow/tfjs-models (Apache-2.0), `pose-detection/test_data`. The published
 * numbers come from a smoothing pipeline and lag by up to half a frame (0.1 s here) where she moves fast; ours do not
 * lag, so single landmarks may differ by more than the published test's own 31 px.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PoseAnswer } from '../../../src/cli/lab.ts';
import { poseInApp } from './labClip.ts';
import { HAS_FOOTAGE, SQUATS, SQUATS_IMAGE, SQUATS_WORLD, STILL } from './outsideFootage.ts';
import { STILL_HEIGHT_PX, STILL_IMAGE_PX, STILL_TOLERANCE_M, STILL_TOLERANCE_PX, STILL_WIDTH_PX, STILL_WORLD_M } from './publishedStill.ts';
import { ffmpeg, HAS_VIDEO_TOOLS } from './videoTools.ts';

/** Differences of landmarks from their published places. */
class Differences {
  #sum = 0;
  #count = 0;
  worst = 0;

  /** Coordinate by coordinate, as the published tests take them. */
  add(ours: number | undefined, theirs: number | undefined): void {
    this.#take(Math.abs((ours ?? Number.NaN) - (theirs ?? Number.NaN)));
  }

  /** As a distance in the picture, which is never less. */
  addDistance([x, y]: readonly [number, number], published: readonly number[] | undefined): void {
    this.#take(Math.hypot(x - (published?.[0] ?? Number.NaN), y - (published?.[1] ?? Number.NaN)));
  }

  #take(off: number): void {
    if (Number.isNaN(off)) throw new Error('a landmark is missing');
    this.#sum += off;
    this.#count += 1;
    this.worst = Math.max(this.worst, off);
  }

  get mean(): number {
    return this.#sum / this.#count;
  }
}

function fractionsToPx(image: readonly number[], landmark: number, width: number, height: number): [number, number] {
  return [(image[landmark * 3] ?? Number.NaN) * width, (image[landmark * 3 + 1] ?? Number.NaN) * height];
}

describe.skipIf(!HAS_FOOTAGE)('a woman squatting, real footage', () => {
  let two: PoseAnswer;
  let one: PoseAnswer;
  beforeAll(async () => {
    two = await poseInApp(SQUATS, { model: 'full', workerCount: 2 });
    one = await poseInApp(SQUATS, { model: 'full', workerCount: 1 });
    console.log(`squats, ${two.facts.timesS.length} frames, loading included: ${one.framesPerS.toFixed(1)} frames/s with 1 worker, ${two.framesPerS.toFixed(1)} with 2`);
  });

  it('is found in every frame', () => {
    expect(two.track.frames).toHaveLength(65);
    expect(two.track.frames.every((frame) => frame !== null)).toBe(true);
    expect([two.facts.widthPx, two.facts.heightPx]).toEqual([720, 1280]);
  });

  it('has the published landmarks: within 10 px on average, within 0.24 m everywhere', () => {
    const published2d = JSON.parse(readFileSync(SQUATS_IMAGE, 'utf8')) as number[][][];
    const published3d = JSON.parse(readFileSync(SQUATS_WORLD, 'utf8')) as number[][][];
    expect(published2d).toHaveLength(65);
    const px = new Differences();
    const metres = new Differences();
    two.track.frames.forEach((frame, f) => {
      for (let i = 0; i < 33; i++) {
        px.addDistance(fractionsToPx(frame!.image, i, 720, 1280), published2d[f]?.[i]);
        for (let axis = 0; axis < 3; axis++) metres.add(frame!.world[i * 3 + axis], published3d[f]?.[i]?.[axis]);
      }
    });
    console.log(`squats against the published: image ${px.mean.toFixed(1)} px mean, ${px.worst.toFixed(0)} px worst; world ${metres.mean.toFixed(3)} m mean, ${metres.worst.toFixed(3)} m worst`);
    expect(px.mean).toBeLessThan(10);
    expect(metres.worst).toBeLessThan(0.24);
  });

  it('gives the same track with one worker and with two, number for number', () => {
    expect([one.workers, two.workers]).toEqual([1, 2]);
    // The JSON is rounded to 1e-5; a difference of decoding or of the engine's state would be far larger.
    expect(one.track).toEqual(two.track);
  });
});

describe.skipIf(!HAS_FOOTAGE || !HAS_VIDEO_TOOLS)('a still', () => {
  let folder: string;
  beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-still-')); });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('has the published landmarks within the published tolerance', async () => {
    // A clip of three equal frames, coded almost without loss, so that the still goes the same way as footage does.
    const clip = join(folder, 'still.webm');
    ffmpeg('-loop', '1', '-framerate', '10', '-t', '0.3', '-i', STILL, '-vf', `scale=${STILL_WIDTH_PX}:${STILL_HEIGHT_PX}:flags=bicubic`,
      '-c:v', 'libvpx-vp9', '-pix_fmt', 'yuv420p', '-crf', '4', '-b:v', '0', clip);
    const { track } = await poseInApp(clip, { model: 'full' });
    const frame = track.frames[0];
    expect([track.widthPx, track.heightPx]).toEqual([STILL_WIDTH_PX, STILL_HEIGHT_PX]);
    const px = new Differences();
    const metres = new Differences();
    for (let i = 0; i < 33; i++) {
      const [x, y] = fractionsToPx(frame!.image, i, STILL_WIDTH_PX, STILL_HEIGHT_PX);
      px.add(x, STILL_IMAGE_PX[i]?.[0]);
      px.add(y, STILL_IMAGE_PX[i]?.[1]);
      for (let axis = 0; axis < 3; axis++) metres.add(frame!.world[i * 3 + axis], STILL_WORLD_M[i]?.[axis]);
    }
    console.log(`still against the published: image ${px.mean.toFixed(1)} px mean, ${px.worst.toFixed(1)} px worst; world ${metres.mean.toFixed(3)} m mean, ${metres.worst.toFixed(3)} m worst`);
    expect(px.worst).toBeLessThan(STILL_TOLERANCE_PX);
    expect(metres.worst).toBeLessThan(STILL_TOLERANCE_M);
  });
});
